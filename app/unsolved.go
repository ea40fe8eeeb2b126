package app

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// subjectTransient is the subject of the finding that the transient could not
// be solved.
const subjectTransient = "transient"

// subjectJudging is the subject of the finding that a run was given up.
const subjectJudging = "judging"

// gaveUpFinding says that a run was given up, so that nothing is known of the
// sheet.
func gaveUpFinding() analysis.Finding {
	return analysis.Finding{
		Severity: analysis.Error, Subject: subjectJudging,
		What:   fmt.Sprintf("The sheet is not judged: the work on it was given up after %.0f s", longest.Seconds()),
		Why:    "nothing is known of its voltages, and nothing of what is wrong with it",
		Remedy: "undo the last change, or remove parts until it is judged again; each change begins the work anew",
	}
}

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
