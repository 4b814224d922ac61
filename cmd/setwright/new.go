package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"setwright/layout/diag"
)

//go:embed starters
var starters embed.FS

// goodsMark stands in a starter plan for the name of the goods file that is
// written beside it.
const goodsMark = "GOODS.csv"

func newCommand() *command {
	c := &command{
		name: "new", args: "FILE", summary: "write a starter plan, with comments, ready to change",
		least: 1, most: 1, missing: "where to? give the new plan a file name",
		flags: newFlags("new"),
		about: `
Writes a small plan that resolves as it is and says in comments what can be
changed, and beside it the goods file it uses: spring.yaml and
spring-goods.csv. A file that is there already is never touched.

--like takes one of: ` + strings.Join(starterNames(), ", ") + `.`,
		examples: `
setwright new spring.yaml
setwright new --like wall tools.yaml`,
	}
	like := c.flags.String("like", "gondola", "start from the unit called `NAME`")
	c.run = func(args []string, s streams) error {
		names := starterNames()
		plan, err := starters.ReadFile("starters/" + *like + ".yaml")
		if err != nil {
			hint := ""
			if near := diag.Near(*like, names); near != "" {
				hint = fmt.Sprintf("; did you mean %s?", near)
			}
			return c.misused("there is no starter %q: choose from %s%s", *like, strings.Join(names, ", "), hint)
		}
		if args[0] == "-" {
			return c.misused("a starter is two files, the plan and its goods: give the plan a file name")
		}
		goods, err := starters.ReadFile("starters/" + *like + ".csv")
		if err != nil {
			return err
		}
		return newPlan(args[0], string(plan), goods, s)
	}
	return c
}

// starterNames lists the starters by name.
func starterNames() []string {
	files, err := fs.Glob(starters, "starters/*.yaml") // in order of name
	if err != nil {
		panic(err) // the pattern is sound
	}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = strings.TrimSuffix(filepath.Base(f), ".yaml")
	}
	return names
}

// newPlan writes both files or neither.
func newPlan(path, plan string, goods []byte, s streams) error {
	goodsPath := strings.TrimSuffix(path, filepath.Ext(path)) + "-goods.csv"
	for _, p := range []string{path, goodsPath} {
		if _, err := os.Lstat(p); err == nil {
			return fmt.Errorf("%s: there is a file already; it stays as it is", p)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return plainError(p, err)
		}
	}
	plan = strings.Replace(plan, goodsMark, quoted(filepath.Base(goodsPath)), 1)
	if err := writeFile(goodsPath, goods); err != nil {
		return err
	}
	if err := writeFile(path, []byte(plan)); err != nil {
		os.Remove(goodsPath)
		return err
	}
	_, err := fmt.Fprintf(s.out, "%s and %s written; now: setwright sheets %s\n", path, goodsPath, shellWord(path))
	return err
}

// quoted is a file name as YAML takes any: in single quotes.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// shellWord quotes a path that a shell would take apart.
func shellWord(path string) string {
	if strings.ContainsAny(path, " \t'\"&|;()<>$`*?[]#~!") {
		return `"` + path + `"`
	}
	return path
}
