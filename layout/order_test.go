package layout

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestOrderDoesNotMatter writes every sample's goods and faces in other orders
// and wants the same said of the unit. Rows of a face are in order, from the top
// down, and stay so.
func TestOrderDoesNotMatter(t *testing.T) {
	plans, err := filepath.Glob("../samples/*/plan.yaml")
	if err != nil || len(plans) < 8 {
		t.Fatalf("samples: %v, %v", plans, err)
	}
	odd, err := filepath.Glob("../testdata/odd/*/plan.yaml")
	if err != nil || len(odd) == 0 {
		t.Fatalf("odd plans: %v, %v", odd, err)
	}
	plans = append(plans, odd...)
	reader := NewReader()
	random := rand.New(rand.NewPCG(3, 5))
	said := 0
	for _, path := range plans {
		folder := os.DirFS(filepath.Dir(path))
		want := findings(reader.Load(folder, "plan.yaml"))
		said += len(want)
		for range 3 {
			mixed := shuffledFolder(t, folder, random)
			if diff := cmp.Diff(want, findings(reader.Load(mixed, "plan.yaml"))); diff != "" {
				t.Errorf("%s in another order (-want +got):\n%s\n%s", path, diff, mixed["plan.yaml"].Data)
				break
			}
		}
	}
	if said < len(plans) {
		t.Errorf("only %d findings in all: there was little to compare", said)
	}
}

// findings is what is said of a project, whatever the lines it stands on.
func findings(p *Project) []string {
	lines := regexp.MustCompile(`\bline \d+`)
	var all []string
	for _, f := range p.Findings.All() {
		all = append(all, lines.ReplaceAllString(fmt.Sprintf("%v %s %s: %s [%s] {%s} (%s) %d notes", f.Level, f.Code, f.At.File, f.Message,
			strings.Join(f.Where, " "), f.Fix, f.Source, len(f.Notes)), "line N"))
	}
	for _, w := range p.Report.Waived {
		all = append(all, fmt.Sprintf("waived %v", w))
	}
	slices.Sort(all)
	return all
}

// shuffledFolder is a plan's folder with the rows of its goods files, the faces
// of the plan and their panels in another order.
func shuffledFolder(t *testing.T, folder fs.FS, random *rand.Rand) fstest.MapFS {
	t.Helper()
	mixed := fstest.MapFS{}
	err := fs.WalkDir(folder, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(folder, name)
		switch {
		case strings.HasSuffix(name, ".csv"):
			text = []byte(shuffledRows(string(text), random))
		case name == "plan.yaml":
			text = []byte(shuffledFaces(string(text), random))
		}
		mixed[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return mixed
}

func shuffledRows(text string, random *rand.Rand) string {
	head, body, _ := strings.Cut(text, "\n")
	rows := strings.Split(strings.TrimSuffix(body, "\n"), "\n")
	random.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	return head + "\n" + strings.Join(rows, "\n") + "\n"
}

// shuffledFaces takes the plan's text apart at its faces.
func shuffledFaces(text string, random *rand.Rand) string {
	panels := regexp.MustCompile(`panels: \{([^}]*)\}`)
	text = panels.ReplaceAllStringFunc(text, func(s string) string {
		list := strings.Split(panels.FindStringSubmatch(s)[1], ", ")
		random.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		return "panels: {" + strings.Join(list, ", ") + "}"
	})
	head, dress, found := strings.Cut(text, "\ndress:\n")
	if !found {
		return text
	}
	var faces []string
	starts := append(regexp.MustCompile(`(?m)^  (front|right|back|left):`).FindAllStringIndex(dress, -1), []int{len(dress)})
	for i, start := range starts[:len(starts)-1] {
		faces = append(faces, strings.TrimRight(dress[start[0]:starts[i+1][0]], "\n")+"\n")
	}
	random.Shuffle(len(faces), func(i, j int) { faces[i], faces[j] = faces[j], faces[i] })
	return head + "\ndress:\n" + strings.Join(faces, "")
}

// TestShuffled makes sure that the test above has something to mix.
func TestShuffled(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	const plan = "unit: {panels: {front: a, back: b}}\ndress:\n  front:\n    - {use: x}\n\n  back: {same: front}\n"
	rows, faces := map[string]bool{}, map[string]bool{}
	for range 50 {
		rows[shuffledRows("h\na\nb\n", random)] = true
		faces[shuffledFaces(plan, random)] = true
	}
	if !rows["h\na\nb\n"] || !rows["h\nb\na\n"] || len(rows) != 2 {
		t.Errorf("rows: %v", rows)
	}
	if want := "unit: {panels: {back: b, front: a}}\ndress:\n  back: {same: front}\n  front:\n    - {use: x}\n"; !faces[want] || len(faces) != 4 {
		t.Errorf("faces: %v", faces)
	}
}
