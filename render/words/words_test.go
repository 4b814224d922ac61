package words

import (
	"reflect"
	"regexp"
	"testing"

	"setwright/fonts"
)

// Every language has every word, can print it, and uses the same verbs.
func TestEveryLanguageIsWhole(t *testing.T) {
	model := reflect.ValueOf(*In("en"))
	for _, tag := range Languages() {
		w := reflect.ValueOf(*In(tag))
		for i := range w.NumField() {
			name := w.Type().Field(i).Name
			if w.Field(i).Kind() != reflect.String {
				continue
			}
			text := w.Field(i).String()
			if text == "" {
				t.Errorf("%s has no word for %s", tag, name)
			}
			if _, lacking := fonts.Clean(text); len(lacking) > 0 {
				t.Errorf("%s: %s has characters the faces lack: %q", tag, name, lacking)
			}
			if got, want := verbs(text), verbs(model.Field(i).String()); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: %s has verbs %q, English %q", tag, name, got, want)
			}
		}
	}
}

func verbs(s string) []string {
	return regexp.MustCompile(`%(\[\d\])?[a-z]`).FindAllString(s, -1)
}

func TestUnknownLanguageIsEnglish(t *testing.T) {
	if got := In("xx").Tag; got != "en" {
		t.Errorf("got %s, want en: a plan's language is checked where it is decoded", got)
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct{ tag, want, reason string }{
		{"en", "12.5 lb", "English keeps the point"},
		{"es", "12,5 lb", "Spanish writes a comma (Real Academia accepts both; trade papers use it)"},
		{"fr", "12,5 lb", "French writes a comma"},
	} {
		if got := In(c.tag).Decimal("12.5 lb"); got != c.want {
			t.Errorf("%s: got %q, want %q: %s", c.tag, got, c.want, c.reason)
		}
	}
}
