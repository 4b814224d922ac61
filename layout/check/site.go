package check

import (
	"setwright/layout/diag"
)

// siteRules judge the unit in the place it will stand.
func siteRules() []judged {
	return []judged{
		{Rule{"casters-locked", "Casters locked", diag.Note, "common practice",
			"a unit on casters has all of them locked before it is loaded and when it is in place"}, castersLocked},
	}
}

func castersLocked(s *subject, r Rule) []diag.Finding {
	if s.Stand.Stand.Form != "casters" {
		return nil
	}
	return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
		"the unit stands on casters: lock every one before loading it, and once more when it is in place", "")}
}
