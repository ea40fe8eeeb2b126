package assess

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// FewSurges returns the usual surge cases at one place each: of those that arrive at
// many the one in the middle. A flash, which takes as long as six others, is left out.
func FewSurges(doc *diagram.Document) []diagram.Surge {
	topology := analysis.Trace(doc)
	var out []diagram.Surge
	for _, s := range analysis.SurgesOf(doc) {
		if s.Wave == diagram.ImpulseWave {
			continue
		}
		if all := analysis.Origins(doc, topology, s); len(all) > 0 {
			out = append(out, all[len(all)/2])
		}
	}
	return out
}

// PosedPlaces returns the places at which a surge is solved, and what is said of others.
func PosedPlaces(t *testing.T, doc *diagram.Document, s diagram.Surge) (places []diagram.ID, left []analysis.Finding) {
	t.Helper()
	var engine Engine
	_, cases, err := engine.inputs(t.Context(), doc, diagram.FirstPlan, []diagram.Surge{s})
	if err != nil {
		t.Fatal(err)
	}
	left = bound(doc, cases)
	for _, in := range cases[0].places {
		places = append(places, in.Surge.Part)
	}
	return places, left
}
