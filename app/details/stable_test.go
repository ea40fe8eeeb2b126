package details

import (
	"fmt"
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// lineOf returns the shown line with the label, and fails where there is none.
func (s *shower) lineOf(label string) *line {
	s.t.Helper()
	var out *line
	visit(s.Object(), func(o fyne.CanvasObject) {
		if l, ok := o.(*line); ok && l.words == label && out == nil {
			out = l
		}
	})
	if out == nil {
		s.t.Fatalf("there is no line %q", label)
	}
	return out
}

func (s *shower) typeInto(label, text string) {
	s.t.Helper()
	e := s.lineOf(label).control.fields[0].(*entry)
	s.window.Canvas().Focus(e)
	typeOver(e, text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// places returns where every line and heading is.
func (s *shower) places() map[string]fyne.Position {
	out, at := map[string]fyne.Position{}, fyne.CurrentApp().Driver().AbsolutePositionForObject
	visit(s.Object(), func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *line:
			out["line "+o.words] = at(o)
		case *head:
			out["head "+o.words] = at(o)
		}
	})
	return out
}

func (s *shower) stayed(before map[string]fyne.Position, what string) {
	s.t.Helper()
	for name, at := range s.places() {
		if was, ok := before[name]; ok && was != at {
			s.t.Errorf("%s: %s moved from %v to %v", what, name, was, at)
		}
	}
}

// A number alone is in the unit that the field shows.
func TestNumberAloneIsInTheUnitOfTheField(t *testing.T) {
	s := newShower(t, house(t))
	s.show("supply-1")
	if field := s.lineOf("Three-phase fault current").control.fields[0].(*entry); field.PlaceHolder != "kA · not known" {
		t.Errorf("the empty field says %q", field.PlaceHolder)
	}
	s.typeInto("Three-phase fault current", "22")
	s.typeInto("Rating", "45")
	got, _ := s.Document().Part("supply-1")
	if got.Source.FaultCurrent != 22e3 || got.Source.Power != 45e3 {
		t.Errorf("got %g A and %g VA", got.Source.FaultCurrent, got.Source.Power)
	}
}

// What is unusual is marked at its field, what is refused is said above it, and
// neither moves a line.
func TestMarksAndMessagesMoveNothing(t *testing.T) {
	s := newShower(t, house(t))
	s.show("supply-1")
	before := s.places()
	s.typeInto("Three-phase fault current", "22 A")
	s.wants(true, "unusual: under 500 A")
	s.stayed(before, "a mark")
	s.typeInto("Three-phase fault current", "many")
	s.wants(true, "Three-phase fault current must be a number with kA, A or mA, such as 22 kA")
	s.stayed(before, "a message")
	s.typeInto("Three-phase fault current", "22")
	s.wants(false, "unusual", "must be")
	s.stayed(before, "a right entry")
}

// The first figure, and what follows from it, leave the form as it is.
func TestFirstFigureMovesNothing(t *testing.T) {
	s := newShower(t, house(t))
	s.faulty(analysis.Fault{At: diagram.End{Part: "panel-1"}, Why: "not stated"})
	s.result.Buses = nil // nothing is known yet
	s.show("panel-1")
	before, room := s.places(), s.scroll.Size()
	s.faulty(mainFault)
	s.show()
	s.stayed(before, "the first results")
	if s.scroll.Size() != room {
		t.Errorf("the form had %v and has %v", room, s.scroll.Size())
	}
}

// The lines of a number are painted, not only held.
func TestFieldsArePainted(t *testing.T) {
	s := newShower(t, house(t))
	s.show("supply-1")
	field := s.lineOf("Voltage").control.fields[0].(*entry)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(field)
	image, colors := s.window.Canvas().Capture(), map[color.Color]bool{}
	for x := at.X + 6; x < at.X+40; x++ {
		colors[image.At(int(x), int(at.Y+field.Size().Height/2))] = true
	}
	if len(colors) < 3 {
		t.Errorf("%q is not seen: %d colours", field.Text, len(colors))
	}
}

// A click on a label, or beside a check, goes to the field of the line; one that
// meets nothing notes that the details are used.
func TestNoDeadPlaceBetweenFields(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	for _, label := range []string{"Bus rating", "Spaces", "Withstand by"} {
		l := s.lineOf(label)
		for _, x := range []float32{2, labelWidth - 2} {
			s.window.Canvas().Unfocus()
			top := fyne.CurrentApp().Driver().AbsolutePositionForObject(l)
			test.TapCanvas(s.window.Canvas(), top.AddXY(x, 0.5))
			if s.window.Canvas().Focused() != l.control.fields[0] {
				t.Errorf("%s: a click at %g leaves the focus at %v", label, x, s.window.Canvas().Focused())
			}
		}
	}
	s.Unuse()
	test.TapCanvas(s.window.Canvas(), fyne.NewPos(8, 14))
	if !s.Used() {
		t.Error("a click into the margin is not noted")
	}
}

// A section that was folded is folded for the next part of its kind, too, and
// not for others.
func TestSectionsFold(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	fold := func() {
		visit(s.Object(), func(o fyne.CanvasObject) {
			if h, ok := o.(*head); ok && h.words == "Ratings and room" {
				h.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			}
		})
	}
	s.wants(true, "▾ Ratings and room", "Bus rating")
	fold()
	s.wants(true, "▸ Ratings and room", "Nameplate")
	s.wants(false, "Bus rating")
	s.show("supply-1")
	s.show("panel-1")
	s.wants(false, "Bus rating")
	fold()
	s.wants(true, "Bus rating")
}

// panelWidth is the least room that the window gives the details, px.
const panelWidth = 330

// Nothing is wider than the details have room for, whatever is selected.
func TestNothingRunsOff(t *testing.T) {
	for _, c := range conventions {
		for _, dark := range []bool{false, true} {
			doc := everything(t)
			s := newShower(t, doc)
			fyne.CurrentApp().Settings().SetTheme(look.Theme{Dark: dark})
			s.convention = c
			s.window.Resize(fyne.NewSize(panelWidth, 900))
			check := func(name string) {
				t.Helper()
				s.Rebuild()
				if wide := s.object.MinSize().Width; wide > panelWidth {
					t.Errorf("%s: %g wide, and %d are there", name, wide, panelWidth)
				}
				for what, content := range map[string]fyne.CanvasObject{"form": s.scroll.Content, "working": s.working.scroll.Content} {
					if wide := content.MinSize().Width; wide > panelWidth {
						t.Errorf("%v, dark %t, %s: the %s is %g wide, and %d are there%s", c, dark, name, what, wide, panelWidth, widest(content))
					}
				}
			}
			s.convention = c
			for _, id := range ids(doc) {
				s.result = dutiful(doc)
				s.show(id)
				check(string(id))
			}
			s.edit.Select()
			s.show()
			check("sheet")
			s.surges = true
			s.show()
			check("surge cases")
			s.Panel.Show(State{Plan: diagram.FirstPlan, Convention: c, Entry: shelfEntry()})
			check("library entry")
		}
	}
}

// widest names the lines that are too wide.
func widest(o fyne.CanvasObject) string {
	var out strings.Builder
	visit(o, func(o fyne.CanvasObject) {
		if l, ok := o.(*line); ok && l.MinSize().Width > panelWidth-24 {
			out.WriteString("; " + l.words)
		}
		if l, ok := o.(*widget.Label); ok && l.Wrapping == fyne.TextWrapOff && l.MinSize().Width > panelWidth-24 {
			out.WriteString("; " + l.Text)
		}
	})
	return out.String()
}

func ids(doc *diagram.Document) []diagram.ID {
	var out []diagram.ID
	for p := range doc.Parts() {
		out = append(out, p.ID)
	}
	for f := range doc.Feeders() {
		out = append(out, f.ID)
	}
	for p := range doc.Protectors() {
		out = append(out, p.ID)
	}
	return out
}

// everything is a sheet with a part of every kind, all of whose rows are shown.
func everything(t *testing.T) *diagram.Document {
	t.Helper()
	records := []any{diagram.Info{Codes: diagram.Codes{Practice: diagram.IECPractice}}}
	for _, kind := range diagram.Kinds() {
		p := diagram.Part{ID: diagram.ID("a-" + strings.ReplaceAll(string(kind), " ", "-")), Kind: kind, Name: string(kind), System: wye}
		p.Withstand = diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000}
		p.Transformer.Primary = wye
		records = append(records, p)
	}
	wide := diagram.Protector{ID: "spd", Plan: diagram.FirstPlan, Bus: "a-panel", Name: "SPD-1", System: wye}
	for i := range wide.Modes {
		wide.Modes[i] = diagram.ModeRating{Connected: true, Level: 1200, MCOV: 320}
	}
	wide.Leads.Phase.Length = 12 // unusual
	return put(t, append(records, wide,
		diagram.Feeder{ID: "f", From: diagram.End{Part: "a-supply"}, To: diagram.End{Part: "a-panel"}, Switch: diagram.SwitchData{Kind: diagram.Breaker}})...)
}

// dutiful is a result in which the protector took wide figures in every mode.
func dutiful(doc *diagram.Document) *analysis.Result {
	var duties []analysis.Duty
	for _, mode := range diagram.Modes() {
		duties = append(duties, analysis.Duty{Mode: mode, Amps: 12345, Charge: 0.123, Energy: 123.4, Allows: 0.1745})
	}
	fault := mainFault
	fault.At.Part = "a-panel"
	return &analysis.Result{
		Basis: analysis.Transient, Topology: analysis.Trace(doc), Faults: map[diagram.End]analysis.Fault{fault.At: fault},
		Surges: []analysis.SurgeResult{{Protectors: map[diagram.ID][]analysis.Duty{"spd": duties}}},
	}
}

// shelfEntry is an entry of a library with all of its fields.
func shelfEntry() *LibraryEntry {
	p := diagram.Protector{ID: "own-1", Name: "Own", System: wye}
	return &LibraryEntry{
		ID: "own-1", Get: func() (diagram.Protector, bool) { return p, true },
		Set: func(f func(*diagram.Protector)) error { f(&p); return nil }, Drag: func(f func(*diagram.Protector)) error { f(&p); return nil },
		Dropped: func() {}, Back: func() {}, Done: func() {},
		Check: func(p diagram.Protector) []analysis.Finding {
			if p.Modes[0].Level > 0 {
				return nil
			}
			return []analysis.Finding{{Rule: "nameplate.modes", What: "Own states no mode", Why: fmt.Sprintf("its %g A count for nothing", p.In), Remedy: "connect the modes"}}
		},
	}
}

// What cannot be right on an entry of the library comes and goes below its
// form.
func TestFindingsOfAnEntryMoveNoField(t *testing.T) {
	s := newShower(t, house(t))
	state := State{Plan: diagram.FirstPlan, Convention: unit.NorthAmerican, Entry: shelfEntry()}
	s.Panel.Show(state)
	before := s.places()
	s.wants(true, "states no mode", "0 A count for nothing")
	_ = state.Entry.Set(func(p *diagram.Protector) { p.In = 5000 })
	s.Panel.Show(state)
	s.wants(true, "states no mode", "5000 A count for nothing")
	_ = state.Entry.Set(func(p *diagram.Protector) { p.Modes[0] = diagram.ModeRating{Connected: true, Level: 700} })
	s.Panel.Show(state)
	s.wants(false, "states no mode")
	s.stayed(before, "the first figure")
	var form fyne.CanvasObject = s.forms[0].object
	if form.Position().Y > s.library.object.Position().Y+s.library.object.Size().Height+10 {
		t.Error("something stands between the buttons and the form")
	}
}
