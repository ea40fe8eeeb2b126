package app

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// subjectTransient is the subject of the finding that the transient could not
// be solved.
const subjectTransient = "transient"

// unsolvedFinding says why the transient could not be solved. The error says
// what and where, and after its last semicolon how to mend it.
func unsolvedFinding(doc *diagram.Document, plan diagram.ID, err error) analysis.Finding {
	out := analysis.Finding{
		Severity: analysis.Error, Subject: subjectTransient, Records: culprits(doc, plan, err.Error()),
		What: "The transient is not solved; the drawing shows the hand rule", Why: sentence(err.Error()),
		Remedy: "switch the basis to the hand rule, or mend what is named",
	}
	if at := strings.LastIndex(err.Error(), "; "); at >= 0 {
		out.Why, out.Remedy = sentence(err.Error()[:at]), err.Error()[at+2:]
	}
	return out
}

// culprits returns the record that an error of the solver begins with: the part
// at which the surge case arrives, or the protector.
func culprits(doc *diagram.Document, plan diagram.ID, text string) []diagram.ID {
	for _, s := range analysis.SurgesOf(doc) {
		if s.Part != "" && strings.HasPrefix(text, "surge case "+analysis.SurgeName(doc, s)+":") {
			return []diagram.ID{s.Part}
		}
	}
	for p := range doc.ProtectorsOf(plan) {
		if strings.HasPrefix(text, doc.NameOf(p.ID)+":") {
			return []diagram.ID{p.ID}
		}
	}
	return nil
}
