package main

import (
	"fmt"

	"setwright/fonts"
	"setwright/layout"
	"setwright/layout/diag"
)

// letters reports the characters that the sheets cannot print, in the words of
// the plan and of the goods that hang on the unit. They are drawn as a visible
// replacement.
func letters(p *layout.Project) []diag.Finding {
	var found []diag.Finding
	look := func(what, text string, at diag.Span) {
		if _, lacking := fonts.Clean(text); len(lacking) > 0 {
			found = append(found, unprintable(what, lacking, at))
		}
	}
	if p.Plan == nil {
		return nil
	}
	head := diag.Span{File: p.Plan.File}
	look("the title", p.Plan.Title, head)
	look("the season", p.Plan.Season, head)
	look("the revision", p.Plan.Revision, head)
	look("by:", p.Plan.By, head)
	look("the name of the unit", p.Plan.Unit.Name, p.Plan.Unit.At)
	if p.Unit == nil {
		return found
	}
	seen := map[string]bool{}
	for _, f := range p.Unit.Faces {
		for _, row := range f.Rows {
			look("the name of "+row.Part.ID, row.Part.Name, row.Part.At)
			for _, pos := range row.Positions {
				product := pos.Product
				if seen[product.SKU] {
					continue
				}
				seen[product.SKU] = true
				look("the sku", product.SKU, product.At)
				look("the name of "+product.SKU, product.Name, product.At)
				look("the family of "+product.SKU, product.Family, product.At)
			}
		}
	}
	return found
}

func unprintable(what string, lacking []rune, at diag.Span) diag.Finding {
	list := ""
	for i, r := range lacking {
		if i > 0 {
			list += ", "
		}
		list += fmt.Sprintf("%q (%U)", r, r)
	}
	return diag.Finding{
		Level: diag.Caution, Code: "unprintable", At: at,
		Message:  fmt.Sprintf("%s has characters the sheets cannot print: %s", what, list),
		Expected: "letters of the Latin script, figures and common signs",
		Fix:      "write it in Latin letters; the sheets show a replacement sign instead",
	}
}
