package details

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// leadBench is a protector with leads of 26 in.
func leadBench(t *testing.T, c unit.Convention) *bench[diagram.Protector] {
	t.Helper()
	lead := diagram.Lead{Length: 26 * inch}
	doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Protector{
		ID: "x", Plan: diagram.FirstPlan, Bus: "a", Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead},
	})
	return newBench(t, doc, func(e Editor) target[diagram.Protector] { return protectorTarget(e, []diagram.ID{"x"}, c) }, protectorRows(c))
}

func (b *bench[R]) entry(name string) (*entry, *string) {
	b.t.Helper()
	g := b.find(name)
	return g.object.(*entry), g.message
}

func typeOver(e *entry, text string) {
	e.FocusGained()
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		e.TypedRune(r)
	}
}

const phaseLead = "Leads: Phase lead"

func TestWaysToEndAnEntry(t *testing.T) {
	enter := func(e *entry) { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	for _, row := range []struct {
		name, typed string
		end         func(*entry)
		shown       string
		metres      float64
		complains   bool
	}{
		{"Enter", "20 in", enter, "20 in", 20 * inch, false},
		{"the other Enter", "20 in", func(e *entry) { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter}) }, "20 in", 20 * inch, false},
		{"loss of the focus", "20 in", func(e *entry) { e.FocusLost() }, "20 in", 20 * inch, false},
		{"Escape", "20 in", func(e *entry) { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }, "26 in", 26 * inch, false},
		{"Escape, then loss of the focus", "20 in", func(e *entry) { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}); e.FocusLost() }, "26 in", 26 * inch, false},
		{"a number alone", "20", enter, "20 in", 20 * inch, false},
		{"the same in another unit", "2 ft 2 in", enter, "26 in", 26 * inch, false},
		{"a unit there is not", "26 xx", enter, "26 xx", 26 * inch, true},
		{"the same, on loss of the focus", "26 xx", func(e *entry) { e.FocusLost() }, "26 xx", 26 * inch, true},
		{"the same, then Escape", "26 xx", func(e *entry) { e.FocusLost(); e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }, "26 in", 26 * inch, false},
		{"a negative value", "-3 in", enter, "-3 in", 26 * inch, true},
		{"more than the sheet allows", "2000 m", enter, "2000 m", 26 * inch, true},
		{"one length behind another", "32.808 ft40", enter, "32.808 ft40", 26 * inch, true},
		{"nothing", "", enter, "", 26 * inch, true},
		{"nothing, on loss of the focus", "", func(e *entry) { e.FocusLost() }, "", 26 * inch, true},
		{"none", "0", enter, "0 in", 0, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := leadBench(t, unit.NorthAmerican)
			e, message := b.entry(phaseLead)
			typeOver(e, row.typed)
			if row.typed == "" {
				e.SetText("")
			}
			row.end(e)
			if got := b.record().Leads.Phase.Length; !same(got, row.metres) {
				t.Errorf("got %g m, want %g", got, row.metres)
			}
			if e.Text != row.shown {
				t.Errorf("the field shows %q, want %q", e.Text, row.shown)
			}
			if complains := *message != ""; complains != row.complains {
				t.Errorf("the message is %q, wanted: %t", *message, row.complains)
			}
			if changed := row.metres != 26*inch; b.editor.CanUndo() != changed {
				t.Errorf("there is something to undo: %t, want %t", b.editor.CanUndo(), changed)
			}
		})
	}
}

func TestMessageNamesWhatIsWrongAndGoes(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	e, message := b.entry(phaseLead)
	typeOver(e, "26 xx")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if !strings.Contains(*message, "26 xx") {
		t.Errorf("got %q, want the text in it", *message)
	}
	typeOver(e, "20 in")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if *message != "" {
		t.Errorf("after a right entry the message is %q", *message)
	}
	typeOver(e, "26 xx")
	e.FocusLost()
	e.SetText("20 in")
	e.FocusLost()
	if *message != "" {
		t.Errorf("after the text was put right by hand the message is %q", *message)
	}
	typeOver(e, "26 xx")
	e.FocusLost()
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if *message != "" {
		t.Errorf("after Escape the message is %q", *message)
	}
}

// A press, a drag and a release come in the order in which the toolkit sends them
// to a field that it finds below the pointer.
func TestWhatAClickSelects(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	press := func(e *entry) { e.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary}) }
	release := func(e *entry) { e.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary}) }
	drag := func(e *entry) {
		at := func(x float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, 12)} }
		e.Dragged(&fyne.DragEvent{PointEvent: at(400), Dragged: fyne.NewDelta(392, 0)})
	}
	for _, row := range []struct {
		name  string
		do    func(w fyne.Window, e *entry)
		typed string
	}{
		{"a click", func(_ fyne.Window, e *entry) { press(e); release(e) }, "40"},
		{"a second click", func(_ fyne.Window, e *entry) { press(e); release(e); press(e); release(e) }, "4032.808 ft"},
		{"Tab", func(w fyne.Window, _ *entry) { w.Canvas().FocusNext() }, "40"},
		{"Tab and a click", func(w fyne.Window, e *entry) { w.Canvas().FocusNext(); press(e); release(e) }, "4032.808 ft"},
		{"a drag over a part", func(_ fyne.Window, e *entry) {
			press(e)
			from := fyne.MeasureText("32.8", theme.TextSize(), fyne.TextStyle{}).Width + theme.InnerPadding()
			to := from + 300
			e.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(to, 12)}, Dragged: fyne.NewDelta(300, 0)})
			release(e)
			e.DragEnd()
		}, "32.840"},
		{"a drag over all of it", func(_ fyne.Window, e *entry) { press(e); drag(e); release(e); e.DragEnd() }, "40"},
		{"Enter", func(_ fyne.Window, e *entry) {
			press(e)
			release(e)
			press(e)
			release(e)
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		}, "40"},
	} {
		t.Run(row.name, func(t *testing.T) {
			e := newEntry(func() (string, bool) { return "32.808 ft", false }, func(string) error { return nil }, func(string) {})
			w := test.NewTempWindow(t, e)
			w.Resize(fyne.NewSize(160, 40))
			row.do(w, e)
			e.TypedRune('4')
			e.TypedRune('0')
			if e.Text != row.typed {
				t.Errorf("40 typed makes %q, want %q", e.Text, row.typed)
			}
		})
	}
}

// A paragraph is written on, and not replaced.
func TestAClickSelectsNoParagraph(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	e, _ := b.entry("Remarks: Note")
	e.SetText("by the door")
	e.FocusGained()
	if got := e.SelectedText(); got != "" {
		t.Errorf("%q is selected", got)
	}
}

// Nothing typed is not none: it would be the best case.
func TestAnEmptiedLengthIsRefused(t *testing.T) {
	const none = "; type 0 if there is none"
	b := leadBench(t, unit.NorthAmerican)
	for _, name := range []string{"All leads", "Phase lead", "Neutral lead", "Ground lead"} {
		e, message := b.entry("Leads: " + name)
		e.SetText("")
		e.FocusLost()
		if want := name + " must be a number with in, ft or mm, such as 18 in" + none; *message != want {
			t.Errorf("%s: got %q, want %q", name, *message, want)
		}
		if leads := b.record().Leads; !same(leads.Phase.Length, 26*inch) || !same(leads.Earth.Length, 26*inch) || !same(leads.Neutral.Length, 26*inch) {
			t.Errorf("%s: the leads are %+v", name, leads)
		}
	}
	doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load},
		diagram.Feeder{ID: "x", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Length: 30, Area: 35e-6})
	f := newBench(t, doc, func(e Editor) target[diagram.Feeder] { return feederTarget(e, []diagram.ID{"x"}, unit.IEC) }, feederRows(unit.IEC))
	e, message := f.entry("Length")
	e.SetText(" ")
	e.FocusLost()
	if f.record().Length != 30 || *message != "Length must be a number with m, cm or mm, such as 15 m"+none {
		t.Errorf("the length is %g m, the message %q", f.record().Length, *message)
	}
	f.find("Conductor").enter("")
	if f.record().Area != 0 {
		t.Error("a conductor that is not known is refused")
	}
}

func TestRefreshLeavesWhatIsTyped(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	e, _ := b.entry(phaseLead)
	typeOver(e, "2")
	if err := b.editor.Change("rename", func(tx *diagram.Tx) error {
		p := b.record()
		p.Name, p.Leads.Neutral.Length = "Other", 10*inch
		tx.SetProtector(p)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	for _, g := range b.grips {
		g.refresh()
	}
	if e.Text != "2" {
		t.Errorf("got %q, want what was typed", e.Text)
	}
	if neutral, _ := b.entry("Leads: Neutral lead"); neutral.Text != "10 in" {
		t.Errorf("the other field shows %q", neutral.Text)
	}
	e.TypedRune('0')
	e.FocusLost()
	if got := b.record().Leads.Phase.Length; !same(got, 20*inch) {
		t.Errorf("got %g m, want %g", got, 20*inch)
	}
}

func TestNotKnownIsEmpty(t *testing.T) {
	doc := put(t, diagram.Part{ID: "x", Kind: diagram.Supply, System: wye, Source: diagram.SourceData{FaultCurrent: 22e3}})
	aim := func(e Editor) target[diagram.Part] { return partTarget(e, []diagram.ID{"x"}, unit.NorthAmerican) }
	b := newBench(t, doc, aim, partRows(diagram.Supply, unit.NorthAmerican, fixed(doc)))
	e, _ := b.entry("Transformer of the utility: Rating")
	if e.Text != "" || e.PlaceHolder != "kVA · not known" {
		t.Errorf("got %q over %q, want nothing", e.Text, e.PlaceHolder)
	}
	e, _ = b.entry("Fault current: Three-phase fault current")
	if e.Text != "22 kA" {
		t.Errorf("got %q, want 22 kA", e.Text)
	}
	e.FocusGained()
	e.SetText("  ")
	e.FocusLost()
	if got := b.record().Source.FaultCurrent; got != 0 || e.Text != "" {
		t.Errorf("got %g shown as %q, want not known", got, e.Text)
	}
}

func TestTextsInBothConventions(t *testing.T) {
	area := diagram.Feeder{ID: "x", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Length: 26 * 12 * inch, Area: unit.AWGArea(2)}
	doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load}, area)
	for _, row := range []struct {
		convention            unit.Convention
		length, area, typed   string
		wantLength, wantMetre float64
	}{
		{unit.NorthAmerican, "26 ft", "2 AWG", "30", 30 * 12 * inch, 0},
		{unit.IEC, "7.9248 m", "33.631 mm²", "30", 30, 0},
	} {
		aim := func(e Editor) target[diagram.Feeder] { return feederTarget(e, []diagram.ID{"x"}, row.convention) }
		b := newBench(t, doc.Snapshot(), aim, feederRows(unit.NorthAmerican))
		length, _ := b.entry("Length")
		area, _ := b.entry("Conductor")
		if length.Text != row.length || area.Text != row.area {
			t.Errorf("%v: got %q and %q, want %q and %q", row.convention, length.Text, area.Text, row.length, row.area)
		}
		typeOver(length, row.typed)
		length.FocusLost()
		if got := b.record().Length; !same(got, row.wantLength) {
			t.Errorf("%v: %q alone is %g m, want %g", row.convention, row.typed, got, row.wantLength)
		}
	}
}

func TestCounts(t *testing.T) {
	for _, row := range []struct {
		typed     string
		want      int
		complains bool
	}{
		{"42", 42, false}, {" 7 ", 7, false}, {"", 0, false}, {"0", 0, false},
		{"-1", 5, true}, {"2.5", 5, true}, {"many", 5, true}, {"10001", 5, true},
	} {
		doc := put(t, diagram.Part{ID: "x", Kind: diagram.Panel, Board: diagram.BoardData{Spaces: 5}})
		aim := func(e Editor) target[diagram.Part] { return partTarget(e, []diagram.ID{"x"}, unit.NorthAmerican) }
		b := newBench(t, doc, aim, partRows(diagram.Panel, unit.NorthAmerican, fixed(doc)))
		e, message := b.entry("Ratings and room: Spaces")
		e.FocusGained()
		e.SetText(row.typed)
		e.FocusLost()
		if got := b.record().Board.Spaces; got != row.want || (*message != "") != row.complains {
			t.Errorf("%q: got %d and %q, want %d", row.typed, got, *message, row.want)
		}
	}
}

// A field of several lines takes Enter for a new line.
func TestParagraph(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	e, _ := b.entry("Remarks: Note")
	typeOver(e, "a")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	e.TypedRune('b')
	if b.record().Note != "" {
		t.Error("Enter hands the text over")
	}
	e.FocusLost()
	if got := b.record().Note; got != "a\nb" {
		t.Errorf("got %q", got)
	}
}

// Leads that differ show as no length, so that any length can be entered for
// all of them.
func TestAllLeads(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	all, _ := b.entry("Leads: All leads")
	if all.Text != "26 in" {
		t.Errorf("alike: got %q", all.Text)
	}
	b.find(phaseLead).enter("6 in")
	b.find("Leads: All leads").refresh()
	if all.Text != "" || all.PlaceHolder != "in · not all alike" {
		t.Errorf("not alike: got %q over %q", all.Text, all.PlaceHolder)
	}
	b.find("Leads: All leads").enter("26 in")
	if got := b.record().Leads; got.Phase.Length != got.Neutral.Length || !same(got.Phase.Length, 26*inch) {
		t.Errorf("got %+v, want 26 in each", got)
	}
}

// A level makes the mode connected, and none leaves it out.
func TestModeIsConnectedByItsLevel(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	g := b.find("Rating in each mode: L-N #1")
	g.enter("700")
	if got, want := b.record().Modes[diagram.LineNeutral], (diagram.ModeRating{Connected: true, Level: 700}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	g.enter("")
	if got := b.record().Modes[diagram.LineNeutral]; got != (diagram.ModeRating{}) {
		t.Errorf("got %+v, want none", got)
	}
	if e := g.object.(*entry); e.PlaceHolder != "V · none" {
		t.Errorf("the empty field says %q", e.PlaceHolder)
	}
}

// A level that comes and goes leaves the gap of its mode alone.
func TestGapStaysWithAnotherLevel(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	b.find("Rating in each mode: Gap or gas tube N-G #3").enter("yes")
	if got, want := b.editor.UndoLabel(), "change gap N-G"; got != want {
		t.Errorf("the entry is called %q, want %q", got, want)
	}
	for _, level := range []string{"1500", "", "1200"} {
		b.find("Rating in each mode: N-G #1").enter(level)
		if !b.record().Modes[diagram.NeutralEarth].Switching {
			t.Errorf("level %q: the gap is gone", level)
		}
	}
}

// What follows from the make-up is empty, and a value that no line has is
// refused with one that it may have.
func TestWaveOnAFeeder(t *testing.T) {
	doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load},
		diagram.Feeder{ID: "x", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Velocity: 150e6})
	aim := func(e Editor) target[diagram.Feeder] { return feederTarget(e, []diagram.ID{"x"}, unit.NorthAmerican) }
	b := newBench(t, doc, aim, feederRows(unit.NorthAmerican))
	impedance, message := b.entry("Surge impedance")
	if impedance.Text != "" || impedance.PlaceHolder != "Ω · from its make-up" {
		t.Errorf("got %q over %q, want nothing", impedance.Text, impedance.PlaceHolder)
	}
	b.find("Surge impedance").enter("0.2")
	if got := b.record().SurgeImpedance; got != 0 || !strings.Contains(*message, "Surge impedance must be 1 Ω to 10 kΩ, or left empty") {
		t.Errorf("0.2 ohm: got %g and %q", got, *message)
	}
	speed, message := b.entry("Wave speed")
	if speed.Text != "150 m/µs" {
		t.Errorf("got %q, want 150 m/µs", speed.Text)
	}
	b.find("Wave speed").enter("400")
	if got := b.record().Velocity; got != 150e6 || !strings.Contains(*message, "Wave speed must be 10 m/µs to 299.8 m/µs, or left empty") {
		t.Errorf("400 m/µs: got %g and %q", got, *message)
	}
	b.find("Wave speed").enter("")
	if got := b.record().Velocity; got != 0 || speed.Text != "" {
		t.Errorf("nothing: got %g shown as %q, want that of the make-up", got, speed.Text)
	}
}

// What the document refuses does not stay in the control.
func TestRefusedChoiceGoesBack(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	message := ""
	refuse := b.target
	refuse.set = func(string, func(*diagram.Protector)) error { return errRefused{} }
	for _, r := range protectorRows(unit.NorthAmerican) {
		if r.label == "type or class" {
			g := grip{object: r.build(refuse, func(text string) { message = text }).object}
			g.enter("class II")
			if g.text() != "not known" || message != "refused" {
				t.Errorf("got %q and %q, want the old value and why", g.text(), message)
			}
		}
	}
	for _, g := range gripsOf(refuse, protectorRows(unit.NorthAmerican)) {
		if g.name == "Outside the board" {
			g.enter("yes")
			if g.text() != "no" || *g.message != "refused" {
				t.Errorf("got %q and %q, want the old value and why", g.text(), *g.message)
			}
		}
	}
}

type errRefused struct{}

func (errRefused) Error() string { return "refused" }

// A record that is gone while its field is typed in takes no harm.
func TestRecordThatIsGone(t *testing.T) {
	b := leadBench(t, unit.NorthAmerican)
	e, message := b.entry(phaseLead)
	typeOver(e, "20 in")
	b.editor.Select("x")
	if err := b.editor.Delete(); err != nil {
		t.Fatal(err)
	}
	e.FocusLost()
	if *message != "" || b.editor.Document().Has("x") {
		t.Errorf("message %q", *message)
	}
}

var _ Editor = (*edit.Editor)(nil)

// In a text that is longer than its field the cursor stays in view, and no bar
// lies on the letters.
func TestLongTextInAField(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	text := strings.Repeat("Tern Quay Marine Laboratory ", 4)
	e := newEntry(func() (string, bool) { return "", false }, func(string) error { return nil }, func(string) {})
	w := test.NewTempWindow(t, e)
	w.Resize(fyne.NewSize(160, 40))
	w.Canvas().Focus(e)
	for _, r := range text {
		e.TypedRune(r)
	}
	scroll, ok := find[*container.Scroll](e)
	if !ok {
		t.Fatal("the text does not scroll")
	}
	if got := scroll.Offset.X; got <= 0 {
		t.Errorf("the end of the text is out of view, it is moved by %g px", got)
	}
	for _, o := range test.WidgetRenderer(scroll).Objects() {
		if o != scroll.Content && o.Visible() && o.Size().Height > 0 && strings.Contains(fmt.Sprintf("%T", o), "scrollBarArea") {
			t.Errorf("a %T is shown", o)
		}
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	if got := scroll.Offset.X; got != 0 {
		t.Errorf("the beginning of the text is out of view, it is moved by %g px", got)
	}
}

// find returns the first object of a type within another.
func find[T fyne.CanvasObject](in fyne.CanvasObject) (T, bool) {
	if one, ok := in.(T); ok {
		return one, true
	}
	var inner []fyne.CanvasObject
	switch o := in.(type) {
	case fyne.Widget:
		inner = test.WidgetRenderer(o).Objects()
	case *fyne.Container:
		inner = o.Objects
	}
	for _, o := range inner {
		if one, ok := find[T](o); ok {
			return one, true
		}
	}
	var none T
	return none, false
}
