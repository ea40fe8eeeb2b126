package app

import (
	"errors"
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
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
		Rule: "judging.given up", Severity: analysis.Error, Subject: subjectJudging,
		What:   fmt.Sprintf("The sheet is not judged: the work on it was given up after %.0f s", longest.Seconds()),
		Why:    "nothing is known of its voltages, and nothing of what is wrong with it",
		Remedy: "undo the last change, or remove parts until it is judged again; each change begins the work anew",
	}
}

// unsolvedFinding says why the transient could not be solved.
func unsolvedFinding(err error) analysis.Finding {
	out := analysis.Finding{
		Rule: "transient.not solved", Severity: analysis.Error, Subject: subjectTransient,
		What: "The transient is not solved; the drawing shows the hand rule", Why: unit.SentenceCase(err.Error()),
		Remedy: "switch the basis to the hand rule, or mend what is named",
	}
	var problem diagram.Problem
	if !errors.As(err, &problem) {
		return out
	}
	if problem.ID != "" {
		out.Records = []diagram.ID{problem.ID}
	}
	if problem.Remedy != "" {
		out.Why, out.Remedy = unit.SentenceCase(problem.Place+": "+problem.What), problem.Remedy
	}
	return out
}
