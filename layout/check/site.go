package check

import (
	"fmt"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// siteRules judge the unit under the ceiling it will stand under.
func siteRules() []judged {
	const fire = "IFC 2018 315.3.1"
	return []judged{
		{Rule{"sprinkler", "Clear of sprinklers", diag.Stop, fire + "; NFPA 13 has the same plane",
			"with sprinklers, unit and goods stay 18 in below the deflectors, but for shelving against a wall no deeper than 30 in; where the deflectors' height is not given they are taken 12 in below the ceiling, as low as NFPA 13 has usual ones (a caution)"}, sprinkler},
		{Rule{"ceiling", "Clear of the ceiling", diag.Stop, fire,
			"without sprinklers, unit and goods stay 24 in below the ceiling, but for shelving along a wall"}, ceiling},
	}
}

// Clearances of IFC 315.3.1, and how far below a ceiling deflectors of usual
// sprinklers may hang (NFPA 13; from memory).
const (
	belowDeflectors = 18 * measure.Inch
	belowCeiling    = 24 * measure.Inch
	lowestDeflector = 12 * measure.Inch
	wallShelving    = 30 * measure.Inch // NFPA 13: how deep shelving is
)

// alongWall reports whether the unit is shelving along a wall, which neither
// clearance is asked of.
func (s *subject) alongWall() bool {
	return s.Frame.Frame.Form == parts.WallForm && s.Extent.Y1-s.Extent.Y0 <= wallShelving
}

func sprinkler(s *subject, r Rule) []diag.Finding {
	site := s.Plan.Site
	deflectors, given := site.Deflectors, "at"
	if deflectors == 0 && site.Ceiling > 0 {
		deflectors, given = site.Ceiling-lowestDeflector, "taken to be at"
	}
	if !site.Sprinklers || deflectors == 0 || s.alongWall() {
		return nil
	}
	limit, top := deflectors-belowDeflectors, s.height()
	if top <= limit {
		return nil
	}
	f := r.finding(site.At, nil,
		fmt.Sprintf("the unit with its goods is %s high; with sprinkler deflectors %s %s it may be %s: %s too high",
			s.length(top), given, s.length(deflectors), s.length(limit), s.length(top-limit)),
		"lower panels or goods by "+s.length(top-limit))
	if site.Deflectors == 0 {
		f = as(diag.Caution, f)
		f.Fix += ", or give the height of the deflectors (site: deflectors)"
	}
	return []diag.Finding{f}
}

func ceiling(s *subject, r Rule) []diag.Finding {
	site := s.Plan.Site
	if site.Sprinklers || site.Ceiling == 0 || s.alongWall() {
		return nil
	}
	limit, top := site.Ceiling-belowCeiling, s.height()
	if top <= limit {
		return nil
	}
	return []diag.Finding{r.finding(site.At, nil,
		fmt.Sprintf("the unit with its goods is %s high; under a ceiling of %s without sprinklers it may be %s: %s too high",
			s.length(top), s.length(site.Ceiling), s.length(limit), s.length(top-limit)),
		"lower panels or goods by "+s.length(top-limit))}
}
