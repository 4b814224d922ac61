package words

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"setwright/layout"
	"setwright/layout/list"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// Every word of the tables of a reset is there in every language: their names,
// their columns and what they say in the program's own words.
func TestResetListsAreWhole(t *testing.T) {
	same := map[string]string{"sku": "es", "code": "fr"} // written as in English
	address := regexp.MustCompile(`^[FRBL]-\d`)
	verbs := map[string]bool{}
	for _, to := range []string{"sweets", "spring"} {
		r := reset.Make(sample(t, "boots"), sample(t, to), reset.Options{})
		cuts, bought, _ := r.Buying(nil)
		for _, table := range reset.Tables(r, cuts, bought) {
			used := map[string]bool{table.Name: true}
			for i, c := range table.Columns {
				used[c.Name] = true
				for _, row := range table.Rows {
					if row[i].Kind == list.Word && !address.MatchString(row[i].Text) {
						used[row[i].Text] = true
					}
				}
			}
			for word := range used {
				verbs[word] = true
				checkListWord(t, word, same[word])
			}
		}
	}
	for v := reset.TakeOff; v <= reset.Nudge; v++ {
		checkListWord(t, v.String(), "")
	}
	if len(verbs) < 30 {
		t.Errorf("only %d words were met", len(verbs))
	}
}

func checkListWord(t *testing.T, word, same string) {
	t.Helper()
	for _, tag := range []string{"es", "fr"} {
		if In(tag).ListWord(word) == In("en").ListWord(word) && !strings.Contains(same, tag) {
			t.Errorf("%s has no word for %q", tag, word)
		}
	}
}

func sample(t *testing.T, name string) *unit.Unit {
	t.Helper()
	dir := "../../samples/" + name
	text, err := os.ReadFile(dir + "/plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := layout.NewReader().Parse(os.DirFS(dir), "plan.yaml", text)
	if p.Unit == nil {
		t.Fatal(p.Findings)
	}
	return p.Unit
}
