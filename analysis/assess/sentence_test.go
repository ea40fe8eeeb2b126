package assess

import (
	"context"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

// sheets returns the demos and the sheets that tests share.
func sheets(t *testing.T) []*diagram.Document {
	t.Helper()
	out := filetest.Demos(t)
	paths, err := filepath.Glob("../../testdata/files/v1/*.clampline")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no sheets: %v", err)
	}
	for _, path := range paths {
		doc, err := file.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, doc)
	}
	return out
}

// sourced are the words that belong to the source of a text.
var sourced = regexp.MustCompile(`from memory|common practice|no source|check your edition`)

// Where a fact comes from stands in the source of a finding or step alone.
func TestSentencesHaveNoSourceInThem(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	texts := 0
	for _, doc := range sheets(t) {
		for _, plan := range doc.Plans() {
			hand, err := Run(context.Background(), doc, plan.ID)
			if err != nil {
				t.Fatal(err)
			}
			solved, err := new(Engine).Transient(context.Background(), doc, plan.ID, FewSurges(doc)...)
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range slices.Concat(said(doc, hand), said(doc, solved)) {
				texts++
				if sourced.MatchString(text) {
					t.Errorf("%q: the source does not belong there", text)
				}
			}
		}
	}
	if texts < 1000 {
		t.Errorf("only %d texts were read", texts)
	}
}

// said is all that a result says but for sources.
func said(doc *diagram.Document, result *analysis.Result) []string {
	var out []string
	steps := func(w analysis.Working) {
		for _, s := range w {
			out = append(out, s.Label, s.Formula, s.Numbers, s.Text)
		}
	}
	for _, f := range result.Findings {
		out = append(out, f.What, f.Why, f.Remedy, f.Mend.Label)
		steps(f.Working)
	}
	for id := range result.Buses {
		explained, _ := Explain(doc, result, id)
		for _, level := range explained.Levels {
			out = append(out, level.Why)
			steps(level.Working)
		}
	}
	for at := range result.Faults {
		f, _ := fault.Explain(doc, result.Topology, at)
		out = append(out, f.Why)
		steps(f.Working)
		for _, a := range f.Assumptions {
			out = append(out, a.Text)
		}
	}
	for _, s := range result.Surges {
		for _, a := range s.Assumptions {
			out = append(out, a.Text)
		}
	}
	return out
}
