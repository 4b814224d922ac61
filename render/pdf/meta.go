package pdf

import (
	"encoding/xml"
	"fmt"
	"strings"
	"time"
	"unicode"

	"setwright/render/sheet"
)

const producer = "Setwright, with fpdf"

// addMetadata adds the document's information twice, as PDF has it: the
// dictionary and the XMP packet, which must agree (ISO 19005-3, 6.6.3).
func (f *file) addMetadata(p *sheet.Pack, date time.Time) (info, metadata int) {
	var dict, xmp strings.Builder
	dict.WriteString("<<")
	field := func(key, value, form string) {
		value = printable(value)
		if value != "" {
			fmt.Fprintf(&dict, "/%s%s", key, textString(value))
			fmt.Fprintf(&xmp, form+"\n", escape(value))
		}
	}
	field("Title", p.Title, `<dc:title><rdf:Alt><rdf:li xml:lang="x-default">%s</rdf:li></rdf:Alt></dc:title>`)
	field("Author", p.Author, `<dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator>`)
	field("Subject", p.Subject, `<dc:description><rdf:Alt><rdf:li xml:lang="x-default">%s</rdf:li></rdf:Alt></dc:description>`)
	field("Keywords", p.Keywords, `<pdf:Keywords>%s</pdf:Keywords>`)
	field("Creator", p.Creator, `<xmp:CreatorTool>%s</xmp:CreatorTool>`)
	field("Producer", producer, `<pdf:Producer>%s</pdf:Producer>`)
	if language := printable(p.Language); language != "" {
		fmt.Fprintf(&xmp, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", escape(language))
	}
	if !date.IsZero() {
		fmt.Fprintf(&dict, "/CreationDate%s%s", pdfDate(date), modDate(date))
		stamp := date.Format("2006-01-02T15:04:05Z")
		fmt.Fprintf(&xmp, "<xmp:CreateDate>%s</xmp:CreateDate>\n<xmp:ModifyDate>%s</xmp:ModifyDate>\n", stamp, stamp)
	}
	dict.WriteString(">>")
	info = f.add(object{dict: dict.String()})
	metadata = f.add(object{dict: "<</Type/Metadata/Subtype/XML", stream: packet(xmp.String()), form: ready})
	return info, metadata
}

func pdfDate(t time.Time) string { return t.Format("(D:20060102150405Z)") }

// modDate is the entry that dates a document or a file; a pack without a
// date has none.
func modDate(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return "/ModDate" + pdfDate(t)
}

// packet wraps properties as XMP (ISO 16684-1) asks, and says that the file is
// PDF/A-3b (ISO 19005-3, 6.6.4). All properties are of schemas that PDF/A
// knows, so that none needs describing.
func packet(properties string) []byte {
	return []byte("<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n" +
		`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">` + "\n" +
		"<pdfaid:part>3</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n" +
		properties + "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
}

// printable replaces what XML cannot hold and drops what a PDF's string cannot,
// so that both records agree.
func printable(s string) string {
	return short(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF {
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(s, string(unicode.ReplacementChar))))
}

func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder does not fail
	return b.String()
}
