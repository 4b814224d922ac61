package measure

import "testing"

func TestParseMoney(t *testing.T) {
	for _, c := range []struct {
		text string
		want Money
		ok   bool
		why  string
	}{
		{"12.5", 1250, true, "one decimal"},
		{"0.35", 35, true, "less than one"},
		{"7", 700, true, "no decimals"},
		{"7.500", 750, true, "noughts behind the hundredths say nothing"},
		{".5", 50, true, "no nought before the point"},
		{"0.355", 0, false, "finer than hundredths"},
		{"", 0, false, "nothing"},
		{".", 0, false, "a point alone"},
		{"-1", 0, false, "a price is not negative"},
		{"1,5", 0, false, "commas are turned into points before"},
		{"100000000", MaxMoney, true, "the most there is"},
		{"100000000.01", 0, false, "more than that"},
		{"99999999999999999999999", 0, false, "far more than that"},
	} {
		got, ok := ParseMoney(c.text)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%q: %d, %v; want %d, %v: %s", c.text, got, ok, c.want, c.ok, c.why)
		}
	}
}

func TestMoneyString(t *testing.T) {
	for m, want := range map[Money]string{0: "0.00", 5: "0.05", 1250: "12.50", -5: "-0.05", -120: "-1.20", MaxMoney: "100000000.00"} {
		if got := m.String(); got != want {
			t.Errorf("%d prints %s, want %s", int64(m), got, want)
		}
		if back, ok := ParseMoney(want); m >= 0 && (!ok || back != m) {
			t.Errorf("%s reads back as %d, want %d", want, back, m)
		}
	}
}
