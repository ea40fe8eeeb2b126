package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// Asked for a part of several terminals, what counts of a transformer is the side
// that the supply feeds, and of a transfer switch the load side: what its
// equipment sees, on the normal supply as on the generator.
func TestNodeOfAPart(t *testing.T) {
	s := newSheet(t).supply("u", wye480).generator("g", wye208).transfer("x", diagram.ToEmergency).transformer("t", wye480, wye208).boards("a").
		part(diagram.Part{ID: "n", Kind: diagram.Note}).
		feed(2, "u > x:normal", "g > x:emergency", "x:load > a", "u > t:primary")
	topology := analysis.Trace(s.doc)
	for id, want := range map[diagram.ID]string{
		"u": "480Y/277, live, source u, zone u, up - by , 0 m, 0 steps",
		"x": "208Y/120, live, source g, zone g, up x:emergency by , 2 m, 2 steps",
		"t": "480Y/277, live, source u, zone u, up u by u-t, 2 m, 1 steps",
		"a": "208Y/120, live, source g, zone g, up x:load by x-a, 4 m, 3 steps",
	} {
		part, _ := s.doc.Part(id)
		if node := topology.Node(part); node == nil || describe(node) != want {
			t.Errorf("%s: got %v, want %s", id, node, want)
		}
	}
	note, _ := s.doc.Part("n")
	if got := topology.Node(note); got != nil {
		t.Errorf("a note has the node %s", describe(got))
	}
	if got := topology.Node(diagram.Part{ID: "gone", Kind: diagram.Panel}); got != nil {
		t.Errorf("a part that is not there has the node %s", describe(got))
	}
}
