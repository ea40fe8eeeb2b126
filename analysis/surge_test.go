package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// A surge case that nobody has named is known by where it arrives, its wave and its
// path; where no part is chosen, that is the supply.
func TestSurgeName(t *testing.T) {
	doc := newSheet(t).part(diagram.Part{ID: "p", Kind: diagram.Panel, Name: "Pump house"}).doc
	strike := diagram.Surge{Wave: diagram.RingWave, Path: diagram.LineToNeutral}
	for want, alter := range map[string]func(*diagram.Surge){
		"supply: ring, line to neutral":     func(*diagram.Surge) {},
		"Pump house: ring, line to neutral": func(s *diagram.Surge) { s.Part = "p" },
		"Spring storm":                      func(s *diagram.Surge) { s.Part, s.Name = "p", "Spring storm" },
	} {
		s := strike
		alter(&s)
		if got := analysis.SurgeName(doc, s); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		problem := analysis.SurgeProblem(doc, s, "it cannot be solved", "choose another")
		if problem.ID != s.Part || problem.Place != "surge case "+want || problem.What != "it cannot be solved" || problem.Remedy != "choose another" {
			t.Errorf("%s: got %+v", want, problem)
		}
	}
}
