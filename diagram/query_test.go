package diagram_test

import (
	"slices"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The index lists what a search through the whole document finds.
func TestIndex(t *testing.T) {
	for seed := range uint64(20) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 40)
		for _, plan := range doc.Plans() {
			index := diagram.NewIndex(doc, plan.ID)
			for part := range doc.Parts() {
				var feeders []diagram.Feeder
				for f := range doc.Feeders() {
					if f.Touches(part.ID) {
						feeders = append(feeders, f)
					}
				}
				var protectors []diagram.Protector
				for p := range doc.ProtectorsOf(plan.ID) {
					if p.Bus == part.ID {
						protectors = append(protectors, p)
					}
				}
				if got := index.FeedersAt(part.ID); !slices.Equal(got, feeders) {
					t.Fatalf("seed %d, %s: got the feeders %v, want %v", seed, part.ID, got, feeders)
				}
				if got := index.ProtectorsOn(part.ID); !slices.Equal(got, protectors) {
					t.Fatalf("seed %d, %s: got the protectors %v, want %v", seed, part.ID, got, protectors)
				}
			}
		}
	}
}
