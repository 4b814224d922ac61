package goods

import (
	"fmt"
	"strings"

	"setwright/layout/decode"
)

// colour reads #rrggbb, #rgb, or one of the commoner colour names of CSS (CSS
// Color Module Level 4, section 6.1), and gives #rrggbb in small letters.
func colour(v *decode.Value, to *string) bool {
	s, ok := v.Text()
	if !ok {
		return false
	}
	low := strings.ToLower(s)
	if hex, ok := strings.CutPrefix(low, "#"); ok && strings.Trim(hex, "0123456789abcdef") == "" {
		switch len(hex) {
		case 6:
			*to = low
			return true
		case 3:
			*to = "#" + strings.Repeat(hex[:1], 2) + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:], 2)
			return true
		}
	}
	var names []string
	for _, c := range commonColours() {
		if c[0] == strings.ReplaceAll(low, "grey", "gray") {
			*to = c[1]
			return true
		}
		names = append(names, c[0])
	}
	v.Fail("bad-colour", fmt.Sprintf("%q is not a colour", s), "#rrggbb, or a name such as green", decode.Suggest(low, names))
	return false
}

func commonColours() [][2]string {
	return [][2]string{
		{"black", "#000000"}, {"silver", "#c0c0c0"}, {"gray", "#808080"}, {"white", "#ffffff"},
		{"maroon", "#800000"}, {"red", "#ff0000"}, {"purple", "#800080"}, {"fuchsia", "#ff00ff"},
		{"green", "#008000"}, {"lime", "#00ff00"}, {"olive", "#808000"}, {"yellow", "#ffff00"},
		{"navy", "#000080"}, {"blue", "#0000ff"}, {"teal", "#008080"}, {"aqua", "#00ffff"},
		{"orange", "#ffa500"}, {"pink", "#ffc0cb"}, {"brown", "#a52a2a"}, {"beige", "#f5f5dc"},
		{"turquoise", "#40e0d0"}, {"gold", "#ffd700"}, {"tan", "#d2b48c"}, {"violet", "#ee82ee"},
	}
}
