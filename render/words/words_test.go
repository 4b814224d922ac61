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
			name := tag + " " + w.Type().Field(i).Name
			checkWords(t, name, w.Field(i), model.Field(i))
		}
	}
}

func checkWords(t *testing.T, name string, word, model reflect.Value) {
	t.Helper()
	switch word.Kind() {
	case reflect.Struct:
		for i := range word.NumField() {
			checkWords(t, name+" "+word.Type().Field(i).Name, word.Field(i), model.Field(i))
		}
	case reflect.Slice, reflect.Array:
		if word.Len() != model.Len() || word.Len() == 0 {
			t.Errorf("%s has %d words, English %d", name, word.Len(), model.Len())
			return
		}
		for i := range word.Len() {
			checkWords(t, name, word.Index(i), model.Index(i))
		}
	case reflect.String:
		text := word.String()
		if text == "" {
			t.Errorf("%s has no words", name)
		}
		if _, lacking := fonts.Clean(text); len(lacking) > 0 {
			t.Errorf("%s has characters the faces lack: %q", name, lacking)
		}
		if got, want := verbs(text), verbs(model.String()); !reflect.DeepEqual(got, want) {
			t.Errorf("%s has verbs %q, English %q", name, got, want)
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

func TestSortKey(t *testing.T) {
	w := In("fr")
	for _, c := range []struct{ before, after, reason string }{
		{"Étiquettes", "Fourche", "an accent leaves a letter where it is"},
		{"ciboulette", "Zinnia", "small letters among the large"},
		{"Œillet", "Oignon", "œ is o and e"},
		{"Nuez", "Ñame", "ñ comes after n"},
		{"Ñame", "Oliva", "and before o"},
	} {
		if w.SortKey(c.before) >= w.SortKey(c.after) {
			t.Errorf("%s does not come before %s: %s", c.before, c.after, c.reason)
		}
	}
}

func TestMoney(t *testing.T) {
	for _, c := range []struct{ tag, number, currency, want, reason string }{
		{"en", "1234.50", "$", "$1234.50", "a sign stands before the number"},
		{"en", "0.05", "USD", "USD\u00a00.05", "a code is kept apart from it"},
		{"en", "12.00", "", "12.00", "no currency was given"},
		{"es", "1234.50", "$", "1234,50\u00a0$", "Spanish: a comma, and the sign behind"},
		{"es", "3.45", "EUR", "3,45\u00a0EUR", "and a code too"},
		{"fr", "0.00", "€", "0,00\u00a0€", "French likewise"},
		{"fr", "", "€", "", "no price"},
	} {
		if got := In(c.tag).Money(c.number, c.currency); got != c.want {
			t.Errorf("%s: got %q, want %q: %s", c.tag, got, c.want, c.reason)
		}
	}
}
