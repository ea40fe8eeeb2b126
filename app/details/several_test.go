package details

import (
	"math"
	"testing"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Of several records a field shows what they have in common, or that they vary; what
// is entered goes for all of them, as one step.
func TestSeveralAtOnce(t *testing.T) {
	lead := func(length float64) diagram.Leads {
		l := diagram.Lead{Length: length}
		return diagram.Leads{Phase: l, Neutral: l, Earth: l}
	}
	doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel},
		diagram.Protector{ID: "x", Name: "SPD-1", Plan: diagram.FirstPlan, Bus: "a", Leads: lead(10 * inch), Type: diagram.Type1, SCCR: 65e3},
		diagram.Protector{ID: "y", Name: "SPD-2", Plan: diagram.FirstPlan, Bus: "a", Leads: lead(20 * inch), Type: diagram.Type2, SCCR: 65e3, External: true},
		diagram.Protector{ID: "z", Name: "SPD-3", Plan: diagram.FirstPlan, Bus: "a", Leads: lead(30 * inch), Type: diagram.Type2, SCCR: 65e3})
	ids := []diagram.ID{"x", "y", "z"}
	c := unit.NorthAmerican
	b := newBench(t, doc, func(e Editor) target[diagram.Protector] { return protectorTarget(e, ids, c) }, shared(protectorRows(c), ids))
	for _, g := range b.grips {
		if g.name == "Name" {
			t.Error("there is a name to enter for all of them")
		}
	}
	for name, want := range map[string]string{"Leads: All leads": "", "Currents: SCCR": "65 kA", "Type or class": ""} {
		if got := b.find(name).text(); got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
	}
	if field := b.find("Leads: All leads").object.(*entry); field.PlaceHolder != theyVary {
		t.Errorf("leads that vary have the words %q in their field", field.PlaceHolder)
	}
	check := b.find("Outside the board").object.(*look.Check)
	if !check.Partial {
		t.Error("a check that only one has is not shown as such")
	}

	b.find("Leads: All leads").enter("6")
	b.find("Type or class").enter("type 2")
	b.find("Outside the board").enter("yes")
	for _, id := range ids {
		p, _ := b.editor.Document().Protector(id)
		if math.Abs(p.Leads.Earth.Length-6*inch) > 1e-9 || p.Leads != lead(p.Leads.Phase.Length) || p.Type != diagram.Type2 || !p.External {
			t.Errorf("%s: got %+v", id, p)
		}
	}
	for range 3 {
		b.editor.Undo()
	}
	if y, _ := b.editor.Document().Protector("y"); y.Leads != lead(20*inch) || !y.External {
		t.Errorf("after undo: %+v", y)
	}
	for _, g := range b.grips {
		if g.refresh != nil {
			g.refresh()
		}
	}
	if got := b.find("Leads: All leads").text(); got != "" {
		t.Errorf("after undo the leads are %q", got)
	}
}

// To show what several have changes none of them, whichever of them stands first.
func TestShowingSeveralChangesNothing(t *testing.T) {
	with := diagram.Protector{ID: "x", Plan: diagram.FirstPlan, Bus: "a", External: true, Type: diagram.Type1, System: diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true}}
	without := diagram.Protector{ID: "y", Plan: diagram.FirstPlan, Bus: "a", System: diagram.System{Wiring: diagram.Delta, Voltage: 480}}
	for _, ids := range [][]diagram.ID{{"x", "y"}, {"y", "x"}} {
		b := newBench(t, put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, with, without), func(e Editor) target[diagram.Protector] { return protectorTarget(e, ids, unit.NorthAmerican) }, shared(protectorRows(unit.NorthAmerican), ids))
		for range 2 {
			for _, g := range b.grips {
				if g.refresh != nil {
					g.refresh()
				}
			}
			b.find("Leads: All leads").enter("6")
		}
		x, _ := b.editor.Document().Protector("x")
		y, _ := b.editor.Document().Protector("y")
		x.Leads, y.Leads = diagram.Leads{}, diagram.Leads{}
		if x != with || y != without {
			t.Errorf("%v: got %+v and %+v", ids, x, y)
		}
	}
}

// A wrong entry changes none of them, and nothing is lost of fields that are left.
func TestSeveralKeepWhatIsNotEntered(t *testing.T) {
	doc := put(t, diagram.Part{ID: "x", Kind: diagram.Panel, Board: diagram.BoardData{Rating: 100}}, diagram.Part{ID: "y", Kind: diagram.Switchboard, Board: diagram.BoardData{Rating: 400}})
	ids := []diagram.ID{"x", "y"}
	c := unit.NorthAmerican
	b := newBench(t, doc, func(e Editor) target[diagram.Part] { return partTarget(e, ids, c) }, shared(partRows(diagram.Panel, c, doc.Snapshot), ids))
	rating := b.find("Ratings and room: Bus rating")
	for _, text := range []string{"", "many"} {
		rating.enter(text)
		x, _ := b.editor.Document().Part("x")
		y, _ := b.editor.Document().Part("y")
		if x.Board.Rating != 100 || y.Board.Rating != 400 {
			t.Errorf("%q: got %g and %g A", text, x.Board.Rating, y.Board.Rating)
		}
	}
	if *rating.message == "" {
		t.Error("nothing is said of a wrong entry")
	}
}

// What is selected together has a form where it is alike, and says for what it goes.
func TestFormOfSeveral(t *testing.T) {
	s := newShower(t, house(t))
	for _, row := range []struct {
		ids  []diagram.ID
		form bool
	}{
		{[]diagram.ID{"feeder-1", "feeder-2"}, true}, {[]diagram.ID{"panel-1", "load-1"}, false}, {[]diagram.ID{"panel-1", "feeder-1"}, false},
	} {
		s.edit.Select(row.ids...)
		s.show()
		s.wants(row.form, "What is entered below goes for all of them.", "Length")
	}
}
