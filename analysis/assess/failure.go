package assess

import (
	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// nowhere tells that a surge case finds no place of the sort at which it arrives.
func nowhere(c posed) analysis.Finding {
	return analysis.Finding{
		Rule: "surge.nowhere", Detail: string(c.surge.ID), Severity: analysis.Warning, Subject: analysis.SubjectSurge,
		What:   "The surge case “" + c.surge.Name + "” arrives nowhere",
		Why:    "it arrives at " + string(c.surge.Places) + ", and none of them is fed by a known system",
		Remedy: "choose other places for it, or remove it",
	}
}

// notCounted tells of loads whose own surges no case of the sheet counts, though there are
// cases that go by what switches.
func notCounted(doc *diagram.Document, surges []diagram.Surge) []analysis.Finding {
	counted, goesBy := map[diagram.Switching]bool{}, false
	for _, s := range surges {
		if s.Places.Has(diagram.Load) {
			counted[s.Switching] = true
			goesBy = goesBy || s.Switching != ""
		}
	}
	if !goesBy || counted[""] {
		return nil
	}
	var out []analysis.Finding
	for part := range doc.Parts() {
		if kind := part.Switches(); part.Kind == diagram.Load && !counted[kind] {
			out = append(out, analysis.Finding{
				Rule: "surge.not of a load", Severity: analysis.Warning, Subject: analysis.SubjectSurge, Records: []diagram.ID{part.ID},
				What:   "No surge case counts what " + doc.NameOf(part.ID) + " makes itself",
				Why:    "it makes surges like " + string(kind) + ", and the cases of the sheet that arrive inside are for others",
				Remedy: "add the usual surge case for that, or let one arrive at any load",
			})
		}
	}
	return out
}

// failure tells that a surge case does not count, and why.
func failure(in extract.Input, err error) analysis.Finding {
	out := analysis.Finding{
		Rule: "surge.not solved", Detail: string(in.Surge.ID), Severity: analysis.Error, Subject: analysis.SubjectSurge,
		What:   "The surge case “" + analysis.SurgeName(in.Document, in.Surge) + "” is not solved; the others count",
		Why:    err.Error(),
		Remedy: "mend the surge case, or remove it",
	}
	if in.Surge.Part != "" {
		out.Records = []diagram.ID{in.Surge.Part}
	}
	return out
}
