package solve

import (
	"bufio"
	"fmt"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// readAllotLP reads an integer program in the CPLEX LP format whose variables are
// x_product_row_fronts: a rules say that each product takes one option at most
// (<=) or exactly (=), c rules hold the widths and the room of each row.
func readAllotLP(t testing.TB, text string) Allot {
	t.Helper()
	var a Allot
	at := map[string][2]int{} // of a variable: product and option
	rule, factor := "", int64(1)
	words := bufio.NewScanner(strings.NewReader(text))
	words.Split(bufio.ScanWords)
	must := true
	for words.Scan() {
		w := words.Text()
		var p, r, n int
		switch {
		case w == "Binary":
			return a
		case strings.HasSuffix(w, ":"):
			rule, must = strings.TrimSuffix(w, ":"), true
		case w == "<=":
			must = false
		case strings.HasPrefix(w, "x_"):
			if _, err := fmt.Sscanf(w, "x_%d_%d_%d", &p, &r, &n); err != nil {
				t.Fatalf("%s: %v", w, err)
			}
			if rule == "obj" {
				for len(a.Products) <= p {
					a.Products = append(a.Products, AllotProduct{})
				}
				at[w] = [2]int{p, len(a.Products[p].Options)}
				a.Products[p].Options = append(a.Products[p].Options, AllotOption{Row: r, Fronts: n, Value: factor})
			} else if rule[0] == 'c' {
				k := at[w]
				a.Products[k[0]].Options[k[1]].Width = factor
			}
			factor = 1
		default:
			if _, err := fmt.Sscan(w, &factor); err != nil {
				factor = 1 // a sign or a keyword
				continue
			}
			if rule[0] == 'c' && !must {
				a.Rows = append(a.Rows, AllotRow{Room: factor})
			}
			if _, err := fmt.Sscanf(rule, "a%d", &p); err == nil {
				a.Products[p].Must = must
			}
		}
	}
	return a
}

// facingOptima reads the proven optima of the shared instances.
func facingOptima(t testing.TB) (names []string, optima map[string]int64) {
	t.Helper()
	optima = map[string]int64{}
	for line := range strings.Lines(oracle.Shared(t, "facing", "OPTIMA.txt")) {
		var name string
		var value int64
		if n, _ := fmt.Sscan(line, &name, &value); n != 2 {
			continue
		}
		if oracle.IsThere(oracle.SharedPath(t, "facing", name+".lp")) {
			names = append(names, name)
			optima[name] = value
		}
	}
	return names, optima
}
