package pdf_test

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/oracle"
	"setwright/render/sheet"
)

// contents are what files hold, by name.
func contents(p *sheet.Pack) map[string]string {
	all := make(map[string]string)
	for _, f := range p.Files {
		all[f.Name] = string(f.Data)
	}
	return all
}

func TestQpdfTakesFilesOut(t *testing.T) {
	qpdf := oracle.Need(t, "qpdf")
	p := withFiles()
	path := saved(t, p)
	for _, f := range p.Files {
		if got := output(t, qpdf, "--show-attachment="+f.Name, path); got != string(f.Data) {
			t.Errorf("%s: %d bytes, not %d", f.Name, len(got), len(f.Data))
		}
	}
	listed := output(t, qpdf, "--list-attachments", "--verbose", path)
	for _, want := range []string{"description: What “Larkfield” sells, ½ price", "mime type: application/vnd.api+json", "modification date: D:20270215000000Z"} {
		if !strings.Contains(listed, want) {
			t.Errorf("qpdf does not list %q:\n%s", want, listed)
		}
	}
}

func TestMutoolTakesFilesOut(t *testing.T) {
	mutool := oracle.Need(t, "mutool")
	p := withFiles()
	path := saved(t, p)
	for i, f := range p.Files {
		if got := output(t, mutool, "show", "-b", path, fmt.Sprintf("trailer/Root/AF/%d/EF/F", i+1)); got != string(f.Data) {
			t.Errorf("%s: %d bytes, not %d", f.Name, len(got), len(f.Data))
		}
	}
}

// Poppler numbers files in the order of their names.
func TestPopplerTakesFilesOut(t *testing.T) {
	pdfdetach := oracle.Need(t, "pdfdetach")
	p := withFiles()
	path := saved(t, p)
	slices.SortFunc(p.Files, func(a, b sheet.File) int { return strings.Compare(a.Name, b.Name) })
	listed := strings.Split(output(t, pdfdetach, "-enc", "UTF-8", "-list", path), "\n")[1:]
	for i, f := range p.Files {
		if want := strconv.Itoa(i+1) + ": " + f.Name; listed[i] != want && !strings.Contains(want, "🌱") { // it cannot print what is beyond U+FFFF
			t.Errorf("listed as %q, not %q", listed[i], want)
		}
		if got := output(t, pdfdetach, "-save", strconv.Itoa(i+1), "-o", "/dev/stdout", path); got != string(f.Data) {
			t.Errorf("%s: %d bytes, not %d", f.Name, len(got), len(f.Data))
		}
	}
}

const pike = `
import base64, json, sys, pikepdf
out = {}
with pikepdf.open(sys.argv[1]) as pdf:
    for name, spec in pdf.attachments.items():
        assert spec.filename == name
        out[name] = base64.b64encode(spec.get_file().read_bytes()).decode()
print(json.dumps(out))
`

// pikepdfFinds takes all files out of a PDF.
func pikepdfFinds(t *testing.T, path string) map[string]string {
	t.Helper()
	var found map[string]string
	if err := json.Unmarshal([]byte(output(t, oracle.NeedPython(t, "pikepdf"), "-c", pike, path)), &found); err != nil {
		t.Fatal(err)
	}
	for name, code := range found {
		data, err := base64.StdEncoding.DecodeString(code)
		if err != nil {
			t.Fatal(err)
		}
		found[name] = string(data)
	}
	return found
}

// A pack that another program has saved again has the same files still.
func TestFilesOutliveResaving(t *testing.T) {
	p := withFiles()
	path := saved(t, p)
	for _, c := range []struct {
		reason  string
		program []string // before the two paths
	}{
		{"as it was written", nil},
		{"objects in streams under a cross-reference stream", []string{"qpdf", "--object-streams=generate"}},
		{"for reading page by page", []string{"qpdf", "--linearize"}},
		{"with everything unfolded", []string{"qpdf", "--qdf"}},
		{"cleaned as far as it goes", []string{"mutool", "clean", "-gggg"}},
		{"written anew from what it shows", []string{"gs", "-q", "-dBATCH", "-dNOPAUSE", "-sDEVICE=pdfwrite", "-o"}},
	} {
		t.Run(c.reason, func(t *testing.T) {
			again := path
			if c.program != nil {
				again = filepath.Join(t.TempDir(), "again.pdf")
				files := []string{path, again}
				if c.program[0] == "gs" {
					slices.Reverse(files)
				}
				args := append(slices.Clone(c.program[1:]), files...)
				if said, err := exec.Command(oracle.Need(t, c.program[0]), args...).CombinedOutput(); err != nil {
					t.Fatalf("%v\n%s", err, said)
				}
			}
			if d := cmp.Diff(contents(p), pikepdfFinds(t, again)); d != "" {
				t.Error(d)
			}
		})
	}
}
