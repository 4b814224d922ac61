package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// rooms lists every package of the module and which others of the module it may
// import: imports go down only, siblings never import each other, the layout
// knows no paper, and the writers see only the page model. A test that holds it
// against `go list` keeps this table and the code the same.
var rooms = map[string][]string{
	"setwright/fonts": {"layout/measure"},

	"setwright/layout/measure":    {},
	"setwright/layout/diag":       {},
	"setwright/layout/solve":      {},
	"setwright/layout/solve/lp":   {},
	"setwright/layout/solve/bars": {"layout/solve/lp"},
	"setwright/layout/statics":    {},
	"setwright/layout/picture":    {},
	"setwright/layout/decode":     {"layout/measure", "layout/diag"},
	"setwright/layout/goods":      {"layout/measure", "layout/diag", "layout/decode"},
	"setwright/layout/parts":      {"layout/measure", "layout/diag", "layout/decode", "layout/goods"},
	"setwright/layout/plan":       {"layout/measure", "layout/diag", "layout/decode"},
	"setwright/layout/unit":       {"layout/measure", "layout/diag", "layout/solve", "layout/parts", "layout/goods", "layout/plan"},
	"setwright/layout/check":      {"layout/measure", "layout/diag", "layout/statics", "layout/parts", "layout/goods", "layout/plan", "layout/unit"},
	"setwright/layout/saw":        {"layout/measure", "layout/diag", "layout/parts", "layout/solve/bars", "layout/solve/boards"},
	"setwright/layout/cutfile":    {"layout/measure", "layout/diag", "layout/decode", "layout/parts", "layout/plan", "layout/saw"},
	"setwright/layout/buy":        {"layout/measure", "layout/diag", "layout/solve", "layout/parts"},
	"setwright/layout/list":       {"layout/measure", "layout/diag", "layout/parts", "layout/goods", "layout/plan", "layout/unit", "layout/saw", "layout/buy"},
	"setwright/layout/kit":        {"layout/measure", "layout/diag", "layout/solve", "layout/parts", "layout/plan", "layout/unit", "layout/saw", "layout/buy", "layout/list"},
	"setwright/layout/reset":      {"layout/measure", "layout/diag", "layout/solve/assign", "layout/solve/untangle", "layout/statics", "layout/parts", "layout/goods", "layout/plan", "layout/unit", "layout/check", "layout/list", "layout/saw", "layout/buy"},
	"setwright/layout/archive":    {"layout/measure", "layout/diag", "layout/plan", "layout/unit", "layout/list", "layout/buy"},
	"setwright/layout/seasons":    {"layout/measure", "layout/diag", "layout/list", "layout/archive"},
	"setwright/layout": {"layout/measure", "layout/diag", "layout/decode", "layout/parts", "layout/goods", "layout/plan",
		"layout/unit", "layout/check", "layout/picture", "layout/list", "layout/saw", "layout/buy"},

	"setwright/layout/solve/boards": {"layout/solve/lp"},

	"setwright/layout/solve/assign":   {},
	"setwright/layout/solve/untangle": {},

	"setwright/render/bars":   {},
	"setwright/render/reader": {},
	"setwright/render/sheet":  {"fonts", "layout/measure"},
	"setwright/render/pdf":    {"fonts", "layout/measure", "render/sheet"},
	"setwright/render/svg":    {"fonts", "layout/measure", "render/sheet"},
	"setwright/render/words":  {"layout/measure", "layout/diag", "layout/parts", "layout/goods", "layout/plan", "layout/list"},
	"setwright/render/xlsx":   {"layout/measure", "layout/plan", "layout/list", "render/words"},
	"setwright/render/draw": {"fonts", "layout/measure", "layout/diag", "layout/parts", "layout/goods", "layout/plan",
		"layout/unit", "layout/check", "layout/list", "layout/saw", "layout/buy", "layout/kit", "layout/reset", "layout/archive", "layout/seasons", "layout/picture", "render/bars", "render/sheet", "render/words"},
	"setwright/render/pack": {"fonts", "layout/measure", "layout/diag", "layout/parts", "layout/goods", "layout/plan",
		"layout/unit", "layout/check", "layout/list", "layout/saw", "layout/buy", "layout/kit", "layout/reset", "layout/seasons", "layout/picture", "render/sheet", "render/words", "render/draw"},
	"setwright/render": {"layout/measure", "layout/diag", "layout/goods", "layout/plan", "layout/unit", "layout/check", "layout/list", "layout/saw", "layout/kit", "layout/reset", "layout/seasons",
		"render/sheet", "render/words", "render/draw", "render/pack"},

	"setwright/cmd/setwright": {"fonts", "layout", "layout/measure", "layout/diag", "layout/decode", "layout/parts", "layout/goods",
		"layout/plan", "layout/unit", "layout/check", "layout/list", "layout/saw", "layout/cutfile", "layout/buy", "layout/kit", "layout/reset", "layout/archive", "layout/seasons", "layout/picture", "render", "render/sheet", "render/reader", "render/pdf", "render/svg", "render/xlsx"},
}

// support lists packages that only tests import.
var support = []string{
	"setwright/layout/golden", "setwright/layout/oracle", "setwright/render/pdf/pdftest", "setwright/render/proof",
}

// guests says which package alone may import a module from outside. Modules
// that are not here may be imported by tests only.
var guests = map[string]string{
	"go.yaml.in/yaml/v3":           "setwright/layout/decode",
	"github.com/boombuler/barcode": "setwright/render/bars",
	"github.com/go-pdf/fpdf":       "setwright/render/pdf",
	"github.com/pdfcpu/pdfcpu":     "setwright/render/reader",
	"github.com/xuri/excelize/v2":  "setwright/render/xlsx",
	"github.com/spf13/pflag":       "setwright/cmd/setwright",
	"golang.org/x/text":            "setwright/fonts",
}

// worldly lists packages of the standard library that touch the world outside
// the program, and who may import them; nobody may import those with none.
var worldly = map[string][]string{
	"C":           {},
	"unsafe":      {},
	"net":         {},
	"net/http":    {},
	"math/rand":   {},
	"os/exec":     {},
	"os":          {"setwright/cmd/setwright"},
	"os/signal":   {"setwright/cmd/setwright"},
	"syscall":     {"setwright/cmd/setwright"},
	"time":        {"setwright/render/pdf", "setwright/render/xlsx", "setwright/layout/plan", "setwright/layout/archive", "setwright/layout/seasons"}, // dates of the plan, and of files that have none; see also TestNoClock
	"testing":     {},
	"crypto/rand": {},
}

type listed struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

func goList(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "setwright/...").Output()
	if err != nil {
		t.Fatal("go list: ", err)
	}
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func TestImportRules(t *testing.T) {
	var have, want []string
	for _, p := range goList(t) {
		if !slices.Contains(support, p.ImportPath) {
			have = append(have, p.ImportPath)
		}
		for _, path := range p.Imports {
			if why := forbidden(p.ImportPath, path); why != "" {
				t.Errorf("%s imports %s: %s", p.ImportPath, path, why)
			}
		}
		if strings.HasPrefix(p.ImportPath, "setwright/layout") {
			for _, path := range slices.Concat(p.TestImports, p.XTestImports) {
				if strings.HasPrefix(path, "setwright/render") || path == "setwright/fonts" {
					t.Errorf("a test of %s imports %s: the layout knows no paper", p.ImportPath, path)
				}
			}
		}
	}
	for p := range rooms {
		want = append(want, p)
	}
	slices.Sort(have)
	slices.Sort(want)
	if diff := cmp.Diff(want, have); diff != "" {
		t.Errorf("packages of the module (-table +go list):\n%s", diff)
	}
}

// forbidden says why a package may not import path, or "".
func forbidden(importer, path string) string {
	if slices.Contains(support, importer) {
		return ""
	}
	if slices.Contains(support, path) {
		return "it is for tests"
	}
	if who, found := worldly[path]; found && !slices.Contains(who, importer) {
		return "it may not touch the world outside the program"
	}
	if own, found := strings.CutPrefix(path, "setwright/"); found {
		if slices.Contains(rooms[importer], own) {
			return ""
		}
		return "the table of rooms does not allow it"
	}
	if first, _, _ := strings.Cut(path, "/"); !strings.Contains(first, ".") {
		return "" // the standard library
	}
	for module, host := range guests {
		if importer == host && (path == module || strings.HasPrefix(path, module+"/")) {
			return ""
		}
	}
	return "only its one room, or tests, may"
}

// TestForbidden makes sure that the rules above can fail.
func TestForbidden(t *testing.T) {
	for _, c := range []struct {
		importer, path string
		allowed        bool
		reason         string
	}{
		{"setwright/layout/unit", "setwright/layout/solve", true, "the unit asks the solvers"},
		{"setwright/layout/solve", "setwright/layout/measure", false, "solvers work on plain integers"},
		{"setwright/layout/list", "setwright/fonts", false, "the layout knows no paper"},
		{"setwright/render/pdf", "setwright/render/svg", false, "siblings"},
		{"setwright/render/svg", "setwright/layout/unit", false, "writers see only the page model"},
		{"setwright/render/xlsx", "setwright/layout/unit", false, "the workbook is written from the tables, as CSV is"},
		{"setwright/layout/goods", "go.yaml.in/yaml/v3", false, "YAML stays in decode"},
		{"setwright/layout/decode", "go.yaml.in/yaml/v3", true, "YAML lives in decode"},
		{"setwright/render/draw", "github.com/google/go-cmp/cmp", false, "for tests only"},
		{"setwright/layout/layout", "os", false, "files come through fs.FS"},
		{"setwright/layout/unit", "setwright/layout/oracle", false, "for tests only"},
		{"setwright/layout/unit", "sort", true, "the standard library"},
	} {
		if got := forbidden(c.importer, c.path) == ""; got != c.allowed {
			t.Errorf("%s imports %s: allowed %v, want %v: %s", c.importer, c.path, got, c.allowed, c.reason)
		}
	}
}
