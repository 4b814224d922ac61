// Package xlsx writes lists as a workbook for spreadsheets: SpreadsheetML in an
// Open Packaging Conventions file (ECMA-376, parts 1 and 2), a sheet a list,
// made to be filtered, sorted and printed.
//
// The same lists give the same bytes. What comes from the plan, the parts list
// or the goods files is written as text and never as a formula; the only
// formulas are the sums under the columns.
package xlsx

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"time"

	"setwright/layout/list"
	"setwright/layout/plan"
	"setwright/render/words"
)

// Options are what a workbook needs besides the lists.
type Options struct {
	Program     string // name and version, for the document's properties
	Fingerprint string // of the plan and its files, printed on each page
	Stopped     bool   // every printed page says "not for construction"
}

// book is a workbook being written.
type book struct {
	plan   *plan.Plan
	tables []*list.Table
	words  *words.Words
	o      Options
	parts  []part
}

// part is one file in the package.
type part struct{ name, text string }

// Write writes the lists of a plan as a workbook, in the plan's language and on
// its paper. It fails only if w does.
func Write(w io.Writer, p *plan.Plan, tables []*list.Table, o Options) error {
	b := &book{plan: p, tables: tables, words: words.In(p.Language), o: o}
	b.add("[Content_Types].xml", b.contentTypes())
	b.add("_rels/.rels", packageRelations)
	b.add("docProps/app.xml", b.appProperties())
	b.add("docProps/core.xml", b.coreProperties())
	b.add("xl/workbook.xml", b.workbook())
	b.add("xl/_rels/workbook.xml.rels", b.relations())
	b.add("xl/styles.xml", b.styles())
	for i, t := range tables {
		b.add(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), b.sheet(t))
	}
	return b.pack(w)
}

func (b *book) add(name, text string) {
	b.parts = append(b.parts, part{name, xml.Header + text})
}

// pack writes the parts in their order, all as old as a ZIP file can say.
func (b *book) pack(w io.Writer) error {
	out := zip.NewWriter(w)
	oldest := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, p := range b.parts {
		f, err := out.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Deflate, Modified: oldest})
		if err != nil {
			return err
		}
		if _, err := io.WriteString(f, p.text); err != nil {
			return err
		}
	}
	return out.Close()
}

const (
	packageNS = "http://schemas.openxmlformats.org/package/2006"
	relsNS    = packageNS + "/relationships"
	sheetNS   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	officeNS  = "http://schemas.openxmlformats.org/officeDocument/2006"
	mediaType = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

const packageRelations = `<Relationships xmlns="` + relsNS + `">` +
	`<Relationship Id="rId1" Type="` + officeNS + `/relationships/officeDocument" Target="xl/workbook.xml"/>` +
	`<Relationship Id="rId2" Type="` + relsNS + `/metadata/core-properties" Target="docProps/core.xml"/>` +
	`<Relationship Id="rId3" Type="` + officeNS + `/relationships/extended-properties" Target="docProps/app.xml"/>` +
	`</Relationships>`

func (b *book) contentTypes() string {
	var x strings.Builder
	x.WriteString(`<Types xmlns="` + packageNS + `/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/docProps/app.xml" ContentType="application/vnd.openxmlformats-officedocument.extended-properties+xml"/>` +
		`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="` + mediaType + `sheet.main+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="` + mediaType + `styles+xml"/>`)
	for i := range b.tables {
		fmt.Fprintf(&x, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="%sworksheet+xml"/>`, i+1, mediaType)
	}
	return x.String() + `</Types>`
}

// relations names the workbook's parts: the sheets in their order, the styles.
func (b *book) relations() string {
	var x strings.Builder
	fmt.Fprintf(&x, `<Relationships xmlns="%s">`, relsNS)
	for i := range b.tables {
		fmt.Fprintf(&x, `<Relationship Id="rId%d" Type="%s/relationships/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, officeNS, i+1)
	}
	fmt.Fprintf(&x, `<Relationship Id="rId%d" Type="%s/relationships/styles" Target="styles.xml"/>`, len(b.tables)+1, officeNS)
	return x.String() + `</Relationships>`
}

// workbook lists the sheets and, in names that spreadsheets know, the range each
// is filtered by and the row printed on every page.
func (b *book) workbook() string {
	var sheets, names strings.Builder
	for i, t := range b.tables {
		name := b.words.ListWord(t.Name)
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escape(name), i+1, i+1)
		fmt.Fprintf(&names, `<definedName name="_xlnm._FilterDatabase" localSheetId="%d" hidden="1">'%s'!%s</definedName>`,
			i, escape(name), absolute(t))
		fmt.Fprintf(&names, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">'%s'!$1:$1</definedName>`, i, escape(name))
	}
	return `<workbook xmlns="` + sheetNS + `" xmlns:r="` + officeNS + `/relationships">` +
		`<bookViews><workbookView/></bookViews><sheets>` + sheets.String() + `</sheets><definedNames>` + names.String() + `</definedNames></workbook>`
}

func (b *book) appProperties() string {
	return `<Properties xmlns="` + officeNS + `/extended-properties"><Application>` + escape(b.o.Program) + `</Application></Properties>`
}

// coreProperties are the plan's title, author, season, mark and date; what the
// plan does not tell is left out.
func (b *book) coreProperties() string {
	var x strings.Builder
	field := func(name, value string) {
		if value != "" {
			fmt.Fprintf(&x, "<%s>%s</%s>", name, escape(value), name)
		}
	}
	x.WriteString(`<cp:coreProperties xmlns:cp="` + packageNS + `/metadata/core-properties"` +
		` xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">`)
	field("dc:title", b.plan.Title)
	field("dc:subject", b.plan.Season)
	field("dc:creator", b.plan.By)
	field("cp:keywords", b.o.Fingerprint)
	field("dc:language", b.words.Tag)
	field("cp:version", b.plan.Revision)
	if b.plan.Date != "" {
		for _, name := range []string{"created", "modified"} {
			fmt.Fprintf(&x, `<dcterms:%s xsi:type="dcterms:W3CDTF">%sT00:00:00Z</dcterms:%s>`, name, escape(b.plan.Date), name)
		}
	}
	return x.String() + `</cp:coreProperties>`
}

// escape writes a text as XML; what XML cannot hold becomes a replacement
// character.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder does not fail
	return b.String()
}
