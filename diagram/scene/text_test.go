package scene

import (
	"fmt"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// A name is shown whole where it is no wider than 64 mm, and else cut where the
// letters and the dots surely fit; a part without a name goes by its id, but for a
// joint, which is only a dot.
func TestNames(t *testing.T) {
	var names []string
	for count := range 70 {
		names = append(names, strings.Repeat("i", count), strings.Repeat("W", count), strings.Repeat("ö", count))
	}
	for _, name := range names {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "part", Kind: diagram.Panel, Name: name})
			tx.SetPart(diagram.Part{ID: "T", Kind: diagram.Transformer, Name: name, At: geom.Pt(200, 0)})
			tx.SetPart(diagram.Part{ID: "joint", Kind: diagram.Junction, Name: name, At: geom.Pt(0, 200)})
		})
		want := name
		if draw.TextWidth(name, 3.2, true) > 64 {
			for want != "" && draw.TextWidth(want, 3.2, true) > 64-3.2 {
				letters := []rune(want)
				want = string(letters[:len(letters)-1])
			}
			want += "…"
		}
		picture := New(doc, diagram.FirstPlan, Marks{}, Options{}).Picture()
		for id, otherwise := range map[diagram.ID]string{"part": "part", "T": "T", "joint": ""} {
			first := want
			if name == "" {
				first = otherwise
			}
			text := ""
			for _, item := range picture.Items() {
				if item.Text != nil && item.Group == string(id) && text == "" {
					text = item.Text.String
				}
			}
			if text != first {
				t.Errorf("%s called %q: %q, want %q", id, name, text, first)
			}
		}
	}
}

// What stands below the names of sources and transformers: what is known of them,
// the fault current before the power.
func TestFacts(t *testing.T) {
	bare := diagram.System{}
	for _, row := range []struct {
		part diagram.Part
		want string
	}{
		{diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{FaultCurrent: 22e3, Power: 75e3}}, "480Y/277, 22 kA"},
		{diagram.Part{Kind: diagram.Generator, System: wye480, Source: diagram.SourceData{Power: 75e3}}, "480Y/277, 75 kVA"},
		{diagram.Part{Kind: diagram.Supply, System: bare}, "not known"},
		{diagram.Part{Kind: diagram.Transformer, System: wye208, Transformer: diagram.TransformerData{Power: 45e3, Primary: delta}}, "45 kVA, 480 delta → 208Y/120"},
		{diagram.Part{Kind: diagram.Transformer, System: wye208, Transformer: diagram.TransformerData{Primary: delta}}, "480 delta → 208Y/120"},
		{diagram.Part{Kind: diagram.TransferSwitch}, "to normal"},
		{diagram.Part{Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: diagram.ToEmergency}}, "to emergency"},
		{diagram.Part{Kind: diagram.Switchboard, System: wye480}, "480Y/277"},
		{diagram.Part{Kind: diagram.Load, System: bare}, ""},
		{diagram.Part{Kind: diagram.Note}, ""},
	} {
		row.part.ID = "x"
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) { tx.SetPart(row.part) })
		s := New(doc, diagram.FirstPlan, Marks{}, Options{})
		var lines []string
		for _, item := range s.Picture().Items() {
			if item.Text != nil {
				lines = append(lines, item.Text.String)
			}
		}
		want := []string{"x"}
		if row.want != "" {
			want = append(want, row.want)
		}
		if row.part.Kind == diagram.Note {
			want = nil
		}
		if fmt.Sprint(lines) != fmt.Sprint(want) {
			t.Errorf("%s: %q, want %q", row.part.Kind, lines, want)
		}
	}
}

// A note lies as it is read, however it was turned.
func TestNotesStayUpright(t *testing.T) {
	drawn := func(turn int) string {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "n", Kind: diagram.Note, Note: "Panel is locked", Span: 45, Turn: turn, At: geom.Pt(5, 7)})
		})
		s := New(doc, diagram.FirstPlan, Marks{}, Options{})
		box, _ := s.Box("n")
		return fmt.Sprint(box, s.Picture())
	}
	if got, want := drawn(1), drawn(0); got != want {
		t.Errorf("turned: %s, want %s", got, want)
	}
}
