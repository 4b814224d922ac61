package decode

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"setwright/layout/diag"
	"setwright/layout/oracle"
)

// TestWindows1252 compares every byte with golang.org/x/text, which has the
// table of the WHATWG Encoding Standard. That gives the five bytes without a
// letter to control characters; here they are no text.
func TestWindows1252(t *testing.T) {
	for c := range 256 {
		want := charmap.Windows1252.DecodeByte(byte(c))
		if 0x80 <= want && want < 0xa0 {
			want = utf8.RuneError
		}
		if got := letter1252(byte(c)); got != want {
			t.Errorf("byte %02X is %q, want %q", c, got, want)
		}
	}
}

func TestEncodings(t *testing.T) {
	const text = "sku,name,width\nA,Crème “brûlée” €,2\n"
	python := oracle.NeedPython(t, "codecs")
	for _, c := range []struct{ codec, prefix, want, reason string }{
		{"utf-8", "", UTF8, "plain"},
		{"utf-8-sig", "", UTF8, "a byte order mark"},
		{"utf-16-le", "\xff\xfe", UTF16LE, "a spreadsheet's Unicode text"},
		{"utf-16-be", "\xfe\xff", UTF16BE, "the other way round"},
		{"utf-16-le", "", UTF16LE, "its byte order mark lost"},
		{"utf-16-be", "", UTF16BE, "its byte order mark lost"},
		{"cp1252", "", Windows1252, "an old spreadsheet"},
	} {
		cmd := exec.Command(python, "-c",
			"import sys; sys.stdout.buffer.write(sys.stdin.buffer.read().decode('utf-8').encode('"+c.codec+"'))")
		cmd.Stdin = strings.NewReader(text)
		encoded, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		src := &source{file: "f.csv", into: &diag.List{}}
		got, encoding, ok := src.unicodeText(append([]byte(c.prefix), encoded...))
		if got = bytes.TrimPrefix(got, []byte("\ufeff")); !ok || string(got) != text || encoding != c.want {
			t.Errorf("%s: %s %q, %v: %s", c.codec, encoding, got, ok, c.reason)
		}
	}
}

func TestUTF16Pairs(t *testing.T) {
	for _, c := range []struct{ in, want, reason string }{
		{"\x3d\xd8\x00\xde", "😀", "a pair"},
		{"\x3d\xd8", "\ufffd", "half a pair at the end"},
		{"\x3d\xd8a\x00", "\ufffda", "half a pair and a letter"},
		{"\x00\xde\x3d\xd8", "\ufffd\ufffd", "a pair the wrong way round"},
	} {
		text := "\xff\xfe" + c.in
		order, _ := utf16Order([]byte(text))
		if got := string(fromUTF16([]byte(text), order)); got != "\ufeff"+c.want {
			t.Errorf("%q is %q, want %q: %s", c.in, got, c.want, c.reason)
		}
	}
}
