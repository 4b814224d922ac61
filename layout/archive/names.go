package archive

import (
	"io/fs"
	"slices"
	"strings"

	"setwright/layout/diag"
)

const (
	longestName = 200  // bytes of one step of a path: most systems allow 255
	longestPath = 1000 // bytes in all
)

// Safe says whether a file may be written by that name, a path with slashes,
// on any system: it stays in the folder it begins in, and no step of it is a
// device or needs signs that some system does not allow. The rules of names are
// those of Windows, which are the strictest: Microsoft, "Naming Files, Paths,
// and Namespaces" (from memory).
func Safe(name string) bool {
	if !fs.ValidPath(name) || name == "." || len(name) > longestPath {
		return false
	}
	for _, r := range name {
		if diag.Unprintable(r) || strings.ContainsRune(`\:*?"<>|`, r) {
			return false
		}
	}
	return !slices.ContainsFunc(strings.Split(name, "/"), unsafeStep)
}

func unsafeStep(step string) bool {
	return len(step) > longestName || strings.HasSuffix(step, ".") || strings.HasSuffix(step, " ") ||
		strings.HasPrefix(step, " ") || device(step)
}

// device says whether a name, whatever follows its first dot, is that of a
// device.
func device(step string) bool {
	base, _, _ := strings.Cut(strings.ToLower(step), ".")
	base = strings.TrimRight(base, " ")
	switch base {
	case "con", "prn", "aux", "nul", "conin$", "conout$":
		return true
	}
	for _, port := range []string{"com", "lpt"} {
		if n, ok := strings.CutPrefix(base, port); ok && slices.Contains([]string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "¹", "²", "³"}, n) {
			return true
		}
	}
	return false
}

// folded is a name as systems see it that do not tell small letters from
// capitals.
func folded(name string) string { return strings.ToLower(strings.ToUpper(name)) }
