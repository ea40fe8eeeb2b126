package details

import (
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// infoRows returns the fields of the sheet as a whole.
func infoRows(c unit.Convention) []row[diagram.Info] {
	return inForm(those(diagram.InfoFields(), func(f *diagram.Field[diagram.Info]) bool { return !isCode(f) && !isCost(f) }), c, keys{"title", "site", "author", "note", "#Hand over", "issue.firm", "issue.address", "issue.logo", "issue.number", "issue.revision", "issue.date", "#Record", "recheck"}, nil)
}

func isCode(f *diagram.Field[diagram.Info]) bool { return strings.HasPrefix(f.Key, "codes.") }

func isCost(f *diagram.Field[diagram.Info]) bool { return strings.HasPrefix(f.Key, "costs.") }

// costRows returns the fields of how the work is priced.
func costRows(c unit.Convention) []row[diagram.Info] {
	return inForm(those(diagram.InfoFields(), isCost), c, keys{
		"#Prices", "costs.currency", "costs.rate", "costs.travel", "costs.shutdown", "costs.shutdownHours", "costs.shutdowns", "costs.overhead", "costs.tax",
	}, own[diagram.Info]{"costs.currency": alter(func(r row[diagram.Info]) row[diagram.Info] { return r.hint("such as three letters") })})
}

// codesRows returns the fields of the rules by which the sheet is checked.
// Those of the other practice are not shown.
func codesRows(c unit.Convention, document func() *diagram.Document) []row[diagram.Info] {
	iec := func(diagram.Info) bool { return document().FollowsIEC() }
	nec := func(i diagram.Info) bool { return !iec(i) }
	return inForm(those(diagram.InfoFields(), isCode), c, keys{"#Rules", "codes.practice", "codes.surges", "codes.nec", "codes.risk", "codes.uc", "codes.fault", "codes.tolerance"}, own[diagram.Info]{
		"codes.practice": func(r row[diagram.Info]) []row[diagram.Info] {
			return []row[diagram.Info]{choiceFrom(r.label, func(unit.Convention) []option[diagram.Practice] { return practices(document()) },
				func(i diagram.Info) diagram.Practice { return i.Codes.Practice },
				func(i *diagram.Info, p diagram.Practice) { i.Codes.Practice = p })}
		},
		"codes.surges": shown(nec), "codes.nec": shown(nec), "codes.risk": shown(iec), "codes.uc": shown(iec),
	})
}

func practices(doc *diagram.Document) []option[diagram.Practice] {
	suggested := "by the supply (NEC)"
	if doc.UsesIEC() {
		suggested = "by the supply (IEC)"
	}
	return []option[diagram.Practice]{{"", suggested}, {diagram.NECPractice, "NFPA 70 and UL 1449"}, {diagram.IECPractice, "IEC 60364 and 61643"}}
}

// planRows returns the fields of a plan.
func planRows(c unit.Convention) []row[diagram.Plan] {
	return inForm(diagram.PlanFields(), c, keys{"name", "purpose", "date", "author", "note"}, nil)
}
