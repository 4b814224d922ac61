package main

import (
	"fmt"
	"strings"

	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/parts"
)

// filtered keeps what has the filter, in letters of any case, in its words; an
// empty filter keeps all. Where nothing has, the error names what was looked
// for, in which fields, and the nearest id.
func filtered[T any](all []T, noun, fields, filter string, id, words func(T) string) ([]T, error) {
	var chosen []T
	var ids []string
	part := strings.ToLower(filter)
	for _, item := range all {
		if strings.Contains(strings.ToLower(words(item)), part) {
			chosen = append(chosen, item)
		}
		ids = append(ids, id(item))
	}
	if chosen == nil {
		hint := ""
		if near := diag.Near(filter, ids); near != "" {
			hint = fmt.Sprintf(": did you mean %s?", near)
		}
		return nil, fmt.Errorf("no %s has %q in its %s%s", noun, filter, fields, hint)
	}
	return chosen, nil
}

func filteredParts(all []*parts.Part, filter string) ([]*parts.Part, error) {
	return filtered(all, "part", "id, name, kind or mounting", filter,
		func(p *parts.Part) string { return p.ID },
		func(p *parts.Part) string { return p.ID + "\n" + p.Name + "\n" + string(p.Kind) + "\n" + mounts(p) })
}

func filteredRules(all []check.Rule, filter string) ([]check.Rule, error) {
	return filtered(all, "rule", "id, level, title or source", filter,
		func(r check.Rule) string { return r.ID },
		func(r check.Rule) string { return r.ID + "\n" + r.Level.String() + "\n" + r.Title + "\n" + r.Source })
}

func filteredGoods(all []*goods.Product, filter string) ([]*goods.Product, error) {
	return filtered(all, "product", "sku, name, family or form", filter,
		func(p *goods.Product) string { return p.SKU },
		func(p *goods.Product) string {
			return p.SKU + "\n" + p.Name + "\n" + p.Family + "\n" + string(p.Form)
		})
}
