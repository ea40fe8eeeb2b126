package file_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

func TestDifferences(t *testing.T) {
	first := read(t, sheet(`"info": {"title": "Farm"},
"parts": [{"id": "panel-1", "kind": "panel", "name": "Hall"}, {"id": "load-1", "kind": "load"}, {"id": "load-2", "kind": "load"}],
"feeders": [{"id": "feeder-1", "from": {"part": "panel-1"}, "to": {"part": "load-1"}, "length": 8}]`))
	second := first.Snapshot()
	diagramtest.Edit(t, second, func(tx *diagram.Tx) {
		tx.SetInfo(diagram.Info{Title: "Farm \x1b[31m"})
		panel, _ := tx.Part("panel-1")
		panel.Name, panel.Board.Rating = "Office", 100
		tx.SetPart(panel)
		tx.Remove("load-2")
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel, Name: "New"})
		feeder, _ := tx.Feeder("feeder-1")
		feeder.Length = 12.5
		tx.SetFeeder(feeder)
	})
	want := []string{
		"sheet: title Farm → Farm \\x1b[31m",
		"gone: load (load-2)",
		"panel Hall (panel-1): name Hall → Office, bus rating nothing → 100 A",
		"added: panel New (panel-2)",
		"feeder (feeder-1): length 26.247 ft → 41.01 ft",
	}
	if diff := cmp.Diff(want, file.Differences(first, second)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// Two documents have no differences exactly where they are written alike.
func TestDifferencesFindWhatIsWritten(t *testing.T) {
	for seed := range uint64(60) {
		a, b := diagramtest.Random(diagramtest.Rand(seed), 5), diagramtest.Random(diagramtest.Rand(seed/2), 5)
		if alike := write(t, a) == write(t, b); alike != (len(file.Differences(a, b)) == 0) {
			t.Errorf("seeds %d and %d: written alike: %t, and %q", seed, seed/2, alike, file.Differences(a, b))
		}
		if got := file.Differences(a, a.Snapshot()); len(got) > 0 {
			t.Errorf("seed %d: itself: %q", seed, got)
		}
	}
}
