package report

import (
	"context"
	"regexp"
	"strings"
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

// So is all that is handed over, but for what people wrote themselves.
func TestHandedOverSpeaksTheWordsOfItsConvention(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for c, wrong := range map[unit.Convention]string{unit.NorthAmerican: `(?i)\b(un)?earth|\b[LN]-PE|\bmm\b|metre`, unit.IEC: `(?i)\b(un)?ground|\b[LN]-G\b`} {
			w := workOf(t, doc, c)
			for _, name := range []string{"proposal", "worksheets", "findings"} {
				text := pdfText(t, written(t, name, w, PDF))
				for part := range doc.Parts() {
					if part.Note != "" {
						text = strings.ReplaceAll(text, plain(part.Note), "")
					}
				}
				for p := range doc.Protectors() {
					if p.Note != "" {
						text = strings.ReplaceAll(text, plain(p.Note), "")
					}
				}
				if at := regexp.MustCompile(wrong).FindStringIndex(text); at != nil {
					t.Errorf("%s, %s in %s: …%s…", doc.Info().Title, name, c, text[max(0, at[0]-60):min(len(text), at[1]+40)])
				}
			}
		}
	}
}
