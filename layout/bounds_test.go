package layout

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// TestBounded feeds plans that ask for far more than anybody builds, each of
// them small. What they ask for must not be worked out before it is refused.
func TestBounded(t *testing.T) {
	const bound = 20 * time.Second // a slow machine with the race detector; meant is one second
	const head = "plan: 1\ntitle: Too much\ngoods: [goods.csv]\n" +
		"unit: {frame: wall-run, bays: 100, stand: fixed, panels: {front: slat-24x96}}\ndress:\n  front:\n"
	staggered := func(rows int) string {
		var b strings.Builder
		for i := range rows {
			fmt.Fprintf(&b, "    - {use: hook-2-slat, bay: %d-%d, count: 3}\n", i%99+1, i%99+2)
		}
		return b.String()
	}
	for _, c := range []struct{ rows, goods, reason string }{
		{strings.Repeat("    - {use: hook-2-slat, count: 10000, repeat: 200}\n", 10), "", "twenty million hooks"},
		{strings.Repeat("    - {use: hook-2-slat, count: 3, repeat: 200}\n", 20_000), "", "four million rows"},
		{strings.Repeat("    - {use: hook-2-slat, bay: 1, count: 3}\n", 20_000), "", "twenty thousand rows in a bay"},
		{strings.Repeat("    - {use: hook-2-slat, bay: 1, at: 40in}\n", 30), "", "thirty rows pinned to one slot"},
		{staggered(2000), "", "rows that all hang together by their bays, more than there are slots"},
		{staggered(600), "", "as many as there are slots, with no room for them"},
		{"    - {use: hook-2-slat, goods: [S]}\n", strings.Repeat("S,Seeds,peg,3,4,1\n", 200_000), "one SKU two hundred thousand times"},
		{"    - {use: hook-2-slat, goods: {S: 10000}}\n", "S,Seeds,peg,0.001,0.001,0.001\n", "goods of a thousandth of an inch"},
		{"    - {use: shelf-24x12, goods: {S: 10000}}\n", "S,Seeds,stand,0.001,0.001,0.001\n", "the same on a shelf"},
		{"    - {use: basket-24-slat, goods: {S: 1}}\n", "S,Seeds,loose,0.0001,0.0001,0.0001\n", "goods like dust in a basket"},
	} {
		fsys := fstest.MapFS{
			"plan.yaml": {Data: []byte(head + c.rows)},
			"goods.csv": {Data: []byte("sku,name,form,width (in),height (in),depth (in)\n" + c.goods)},
		}
		start := time.Now()
		p := Load(fsys, "plan.yaml")
		if took := time.Since(start); took > bound {
			t.Errorf("%s: %v", c.reason, took)
		}
		t.Logf("%s: %v, %d findings", c.reason, time.Since(start), p.Findings.Len())
		if p.Findings.Len() == 0 {
			t.Errorf("%s: nothing is said about it", c.reason)
		}
	}
}
