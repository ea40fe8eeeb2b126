package report

import (
	"context"
	"regexp"
	"testing"

	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// What a drawing says of the results is in the words of its convention.
func TestDrawingSpeaksTheWordsOfItsConvention(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		hand, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
		if err != nil {
			t.Fatal(err)
		}
		solved, err := new(assess.Engine).Transient(context.Background(), doc, diagram.FirstPlan)
		if err != nil {
			t.Fatal(err)
		}
		for c, wrong := range map[unit.Convention]string{unit.NorthAmerican: `(?i)\bearth`, unit.IEC: `(?i)\bground|-G\b`} {
			said := []string{Drawing{Document: doc, Result: solved, Convention: c}.Cases()}
			marks := mark.Of(doc, hand, c)
			for _, m := range marks.Parts {
				said = append(said, m.Lines...)
			}
			for _, text := range marks.Breaks {
				said = append(said, text)
			}
			if len(said) < 5 || said[0] == "" {
				t.Errorf("%s: a drawing says only %q", doc.Info().Title, said)
			}
			for _, text := range said {
				if regexp.MustCompile(wrong).MatchString(text) {
					t.Errorf("%s in %s: %q", doc.Info().Title, c, text)
				}
			}
		}
	}
}
