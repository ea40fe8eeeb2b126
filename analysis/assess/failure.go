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
