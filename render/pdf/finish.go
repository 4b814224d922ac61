package pdf

import (
	_ "embed"
	"errors"
	"fmt"
	"strings"

	"setwright/fonts"
	"setwright/render/sheet"
)

// Where fpdf puts what finish changes.
const (
	pagesObject     = 1
	resourcesObject = 2
)

//go:embed srgb.icc
var srgb string

// finish turns fpdf's document into the one that is handed out: it takes over
// pages, contents, pictures and links, and writes all else anew.
func finish(raw []byte, p *sheet.Pack, used *usage) ([]byte, error) {
	f, err := read(raw)
	if err != nil {
		return nil, err
	}
	if err := f.addFonts(used); err != nil {
		return nil, err
	}
	pages := references(f.objects[pagesObject].dict)
	if len(pages) != len(p.Sheets) {
		return nil, fmt.Errorf("%d pages for %d sheets", len(pages), len(p.Sheets))
	}
	for _, page := range pages {
		f.printLinks(page)
	}
	date, err := day(p)
	if err != nil {
		return nil, err
	}
	info, metadata := f.addMetadata(p, date)
	return f.write(f.addCatalog(p, f.addOutlines(p, pages), metadata, f.addFiles(p, modDate(date))), info)
}

func (f *file) addFonts(used *usage) error {
	const mark = "/Font <<"
	resources := &f.objects[resourcesObject]
	if !strings.Contains(resources.dict, mark) {
		return errors.New("no font resources to add to")
	}
	list := mark
	for face := range fonts.Face(fonts.Faces) {
		if len(used[face]) > 0 {
			list += fmt.Sprintf("%s %d 0 R", fontName(face), f.addFont(face, used[face]))
		}
	}
	resources = &f.objects[resourcesObject] // moved as objects were added
	resources.dict = strings.Replace(resources.dict, mark, list, 1)
	return nil
}

// printLinks sets the print flag on a page's links, which PDF/A asks of every
// annotation (ISO 19005-3, 6.3.2).
func (f *file) printLinks(page int) {
	const mark = "/Border [0 0 0] "
	o := &f.objects[page]
	o.dict = strings.ReplaceAll(o.dict, mark, mark+"/F 4 ")
}

// addCatalog: readers show the pack's title, open its outlines, and print it
// unscaled, since drawings are measured on paper. Of the files attached, it is
// given what addFiles says.
func (f *file) addCatalog(p *sheet.Pack, outlines, metadata int, files string) int {
	profile := f.add(object{dict: "<</N 3", stream: []byte(srgb), form: deflate})
	language := ""
	if p.Language != "" {
		language = "/Lang" + textString(p.Language)
	}
	return f.add(object{dict: fmt.Sprintf(
		"<</Type/Catalog/Pages %d 0 R/Outlines %d 0 R/PageMode/UseOutlines%s"+
			"/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None>>/Metadata %d 0 R"+
			"/OutputIntents[<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB IEC61966-2.1)/DestOutputProfile %d 0 R>>]%s>>",
		pagesObject, outlines, language, metadata, profile, files)})
}
