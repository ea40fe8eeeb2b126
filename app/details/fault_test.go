package details

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// faulty gives the panel a result in which the fault currents are the given
// ones, each by a working of one step.
func (s *shower) faulty(faults ...analysis.Fault) {
	s.judge()
	out := *s.result
	out.Faults = map[diagram.End]analysis.Fault{}
	for _, f := range faults {
		out.Faults[f.At] = f
	}
	s.result = &out
	s.explainFault = func(at diagram.End) (analysis.Fault, bool) {
		f, ok := out.Faults[at]
		f.Working = analysis.Working{{Label: "sum at " + string(at.Part) + string(at.Port), Numbers: "277 V / 12.9 mΩ", Result: f.ThreePhase, Unit: "A"}}
		return f, ok
	}
}

// at is the fault at the only terminal of the main panel.
var mainFault = analysis.Fault{
	At: diagram.End{Part: "panel-1"}, Known: true, Why: "from Grid",
	ThreePhase: 21412, LineLine: 18543, LineNeutral: 17e3, LineEarth: 16.5e3, XR: 4.87,
}

func TestFaultTable(t *testing.T) {
	unknown := analysis.Fault{At: diagram.End{Part: "panel-1"}, Why: "the fault current of Grid is not stated"}
	estimated := mainFault
	estimated.Estimated, estimated.LineNeutral = true, 0
	estimated.Assumptions = []analysis.Assumption{{Record: "supply-1", Text: "its X/R is taken as 10", Source: "common practice, no source"}}
	for _, row := range []struct {
		name      string
		fault     analysis.Fault
		has, lack []string
	}{
		{"known", mainFault,
			[]string{"Fault current up to 21.4 kA", "Three-phase 21.4 kA", "Line to line 18.5 kA", "Line to neutral 17 kA", "Line to ground 16.5 kA", "X / R 4.87",
				"Up to 21.4 kA, three-phase. From Grid."},
			[]string{"Estimated", "about"}},
		{"estimated", estimated,
			[]string{"Fault current up to about 21.4 kA", "Line to neutral –", "Estimated: the sheet does not give every figure.", "Grid: its X/R is taken as 10 (common practice, no source)"}, nil},
		{"not known", unknown,
			[]string{"Three-phase –", "Not known: the fault current of Grid is not stated."}, []string{"Fault current up to"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newShower(t, house(t))
			s.faulty(row.fault)
			for _, selected := range []diagram.ID{"panel-1", "protector-1"} {
				s.show(selected)
				s.wants(true, row.has...)
				s.wants(false, row.lack...)
			}
			s.show("load-1")
			s.wants(false, "Fault current")
		})
	}
}

func TestFaultTableOfATransformer(t *testing.T) {
	primary := analysis.Fault{At: diagram.End{Part: "transformer-1", Port: diagram.Primary}, Known: true, ThreePhase: 22e3, LineLine: 19e3}
	secondary := analysis.Fault{At: diagram.End{Part: "transformer-1", Port: diagram.Secondary}, Known: true, ThreePhase: 8e3, LineEarth: 8.21e3}
	s := newShower(t, put(t, diagram.Part{ID: "transformer-1", Kind: diagram.Transformer, Name: "T1"}))
	s.convention = unit.IEC
	s.faulty(primary, secondary)
	s.show("transformer-1")
	s.wants(true, "Fault current up to 22 kA (primary), 8.21 kA (secondary)", "Primary Secondary", "Three-phase 22 kA 8 kA", "Line to earth – 8.21 kA",
		"Primary: Up to 22 kA, three-phase.", "Secondary: Up to 8.21 kA, line to earth.", "T1, by impedances", "Sum at transformer-1secondary")
	s.wants(false, "Sum at transformer-1primary", "by the hand rule")
	s.button("Primary 22 kA, three-phase").OnTapped()
	s.wants(true, "Sum at transformer-1primary", "277 V / 12.9 mΩ = 22 kA")
}

// button returns the button with the text, with plain spaces.
func (s *shower) button(text string) *look.Button {
	s.t.Helper()
	var out *look.Button
	var all []string
	visit(s.Object(), func(o fyne.CanvasObject) {
		if b, ok := o.(*look.Button); ok {
			now := strings.Join(strings.Fields(b.Text), " ")
			all = append(all, now)
			if now == text {
				out = b
			}
		}
	})
	if out == nil {
		s.t.Fatalf("no button %q among %q", text, all)
	}
	return out
}

// The highest current is set in bold, and no other.
func TestHighestFaultIsMarked(t *testing.T) {
	s := newShower(t, house(t))
	s.faulty(mainFault)
	s.show("panel-1")
	bold := map[string]bool{}
	visit(s.fault.object, func(o fyne.CanvasObject) {
		if label, ok := o.(*widget.Label); ok {
			bold[label.Text] = label.TextStyle.Bold
		}
	})
	for text, is := range bold {
		if want := text == "21.4\u00a0kA" || text == "21.4 kA"; is != want {
			t.Errorf("%q is bold: %t", text, is)
		}
	}
	if len(bold) != 5 {
		t.Errorf("got the figures %v, want four currents and their X/R", bold)
	}
}

// Which of the two workings is in view stays from one selection to the next,
// where both are there.
func TestTopicOfTheWorking(t *testing.T) {
	load := mainFault
	load.At.Part = "load-1"
	supply := mainFault
	supply.At.Part = "supply-1"
	s := newShower(t, house(t))
	s.faulty(mainFault, load, supply)
	s.show("panel-1")
	s.wants(true, "Main, by the hand rule", "VPR of SPD 1")
	s.wants(false, "Sum at panel-1")
	s.button("Fault current").OnTapped()
	s.wants(true, "Main, by impedances", "Sum at panel-1", "277 V / 12.9 mΩ = 21.41 kA")
	s.wants(false, "by the hand rule", "VPR of SPD 1")
	s.show("load-1")
	s.wants(true, "Pump, by impedances", "Sum at load-1")
	s.button("Surge").OnTapped()
	s.wants(true, "Pump, by the hand rule")
	s.show("supply-1")
	s.wants(true, "Working", "Grid, by impedances")
	visit(s.working.object, func(o fyne.CanvasObject) {
		if b, ok := o.(*look.Button); ok {
			t.Errorf("there is one topic, and a button %q", b.Text)
		}
	})
	s.show("panel-1")
	s.wants(true, "Main, by the hand rule")
	s.show("feeder-1")
	s.wants(false, "Working")
}

func TestNoFaultWorkingWithoutWhatExplains(t *testing.T) {
	s := newShower(t, house(t))
	s.faulty(mainFault)
	s.explainFault = nil
	s.show("panel-1")
	s.wants(true, "Three-phase 21.4 kA", "by the hand rule")
	visit(s.working.object, func(o fyne.CanvasObject) {
		if b, ok := o.(*look.Button); ok && b.Text == string(faultTopic) {
			t.Error("the working of the fault current is offered")
		}
	})
}
