package details

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// shower is a panel in a window, brought up to date after each change as the
// program does it.
type shower struct {
	*Panel
	t          *testing.T
	edit       *edit.Editor
	window     fyne.Window
	result     *analysis.Result
	convention unit.Convention
	surges     bool // are shown
	explained  int
	buys       Buys

	explainFault func(diagram.End) (analysis.Fault, bool)
}

func (s *shower) Document() *diagram.Document { return s.edit.Document() }

func (s *shower) Change(label string, f func(*diagram.Tx) error) error {
	err := s.edit.Change(label, f)
	s.show()
	return err
}

func (s *shower) ChangeKeyed(key, label string, f func(*diagram.Tx) error) error {
	err := s.edit.ChangeKeyed(key, label, f)
	s.show()
	return err
}

func (s *shower) EndKeyed() { s.edit.EndKeyed() }

func (s *shower) show(selected ...diagram.ID) {
	if len(selected) > 0 {
		s.edit.Select(selected...)
	}
	s.Panel.Show(State{
		Selected: s.edit.Selection(), Plan: s.edit.Plan(), Convention: s.convention, Result: s.result,
		Surges: s.surges, Done: func() { s.surges = false; s.show() },
		Explain: func(bus diagram.ID) (analysis.BusResult, bool) {
			s.explained++
			return assess.Explain(s.edit.Document(), s.result, bus)
		},
		ExplainFault: s.explainFault, Buys: s.buys, SolveBuys: func() {},
	})
}

func (s *shower) judge() {
	s.t.Helper()
	result, err := assess.Run(s.t.Context(), s.edit.Document(), s.edit.Plan())
	if err != nil {
		s.t.Fatal(err)
	}
	s.result = result
	s.show()
}

// house is a supply, a panel with a protector and a load.
func house(t *testing.T) *diagram.Document {
	lead := diagram.Lead{Length: 6 * inch}
	protector := diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD 1", System: wye, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}}
	for i := range protector.Modes {
		protector.Modes[i] = diagram.ModeRating{Connected: true, Level: 1200, MCOV: 320}
	}
	return put(t,
		diagram.Part{ID: "supply-1", Kind: diagram.Supply, Name: "Grid", System: wye},
		diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main", Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 3}},
		diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump", Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 2}},
		diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}, Length: 12 * 12 * inch},
		diagram.Feeder{ID: "feeder-2", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}, Length: 30},
		protector)
}

func newShower(t *testing.T, doc *diagram.Document) *shower {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	s := &shower{t: t, edit: edit.New(doc, edit.Options{})}
	s.Panel = New(s)
	s.window = test.NewWindow(s.Object())
	s.window.Resize(fyne.NewSize(340, 900))
	s.show()
	return s
}

func visit(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	if !o.Visible() {
		return
	}
	f(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			visit(child, f)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			visit(child, f)
		}
	}
}

// words returns all that is written on the panel, on one line.
func (s *shower) words() string {
	var out []string
	visit(s.Object(), func(o fyne.CanvasObject) {
		if text, ok := o.(*canvas.Text); ok {
			out = append(out, strings.Fields(strings.ReplaceAll(text.Text, "\u00a0", " "))...)
		}
	})
	return strings.Join(out, " ")
}

func (s *shower) wants(has bool, words ...string) {
	s.t.Helper()
	text := s.words()
	for _, w := range words {
		if strings.Contains(text, w) != has {
			s.t.Errorf("the panel has %q: want %t; it says %q", w, has, text)
		}
	}
}

func (s *shower) fields() []*entry {
	var out []*entry
	visit(s.Object(), func(o fyne.CanvasObject) {
		if e, ok := o.(*entry); ok {
			out = append(out, e)
		}
	})
	return out
}

func TestFormOfEachSelection(t *testing.T) {
	for _, row := range []struct {
		name     string
		selected []diagram.ID
		words    []string
	}{
		{"nothing", nil, []string{"Sheet", "Nothing is selected.", "Title", "Drawn by", "Plan", "As found"}},
		{"a supply", []diagram.ID{"supply-1"}, []string{"Grid", "Supply · 480Y/277 V", "Fault current", "480Y/277 V", "Grounding"}},
		{"a panel", []diagram.ID{"panel-1"}, []string{"Main", "Panel · 480Y/277 V from Grid, 12 ft", "Withstand by", "Category", "Nameplate", "as supplied", "Neutral bonded to ground"}},
		{"a load", []diagram.ID{"load-1"}, []string{"Pump", "Load · 480Y/277 V from Grid", "Connection", "as the bus"}},
		{"a feeder", []diagram.ID{"feeder-1"}, []string{"Feeder Grid – Main", "Feeder · from Grid to Main", "Length", "12 ft", "Breaker or switch at the source end"}},
		{"a protector", []diagram.ID{"protector-1"}, []string{"SPD 1", "Protector · on Main", "All leads", "6 in", "L-G", "MCOV or Uc"}},
		{"several", []diagram.ID{"panel-1", "load-1"}, []string{"2 selected", "Pump, Main"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := newShower(t, house(t))
			s.judge()
			s.show(row.selected...)
			s.wants(true, row.words...)
		})
	}
}

func TestManySelectedAreNotAllNamed(t *testing.T) {
	var records []any
	for i := range 20 {
		records = append(records, diagram.Part{ID: diagram.ID("load-" + string(rune('a'+i))), Kind: diagram.Load, Name: "L" + string(rune('a'+i))})
	}
	s := newShower(t, put(t, records...))
	s.edit.SelectAll()
	s.show()
	s.wants(true, "20 selected", "La, Lb", "and 8 more")
	s.wants(false, "Ln")
}

func TestWordsFollowTheConvention(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	for _, row := range []struct {
		c        unit.Convention
		has, not []string
	}{
		{unit.NorthAmerican, []string{"Ground lead", "L-G", "6 in", "Grounding"}, []string{"Earth lead", "L-PE", "152.4 mm", "Earthing"}},
		{unit.IEC, []string{"Earth lead", "L-PE", "152.4 mm", "Earthing"}, []string{"Ground lead", "L-G", "Grounding"}},
	} {
		s.convention = row.c
		s.show("protector-1")
		s.wants(true, row.has...)
		s.wants(false, row.not...)
	}
}

// Rows come and go with what the record has, and the others keep the focus.
func TestRowsComeAndGo(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	c := s.window.Canvas()
	s.FocusFirst(c)
	focused := c.Focused()
	for _, row := range []struct {
		kind     diagram.Withstand
		has, not []string
	}{
		{diagram.Withstand{Kind: diagram.ByCategory, Category: 3}, []string{"Category"}, []string{"Times nominal crest", "Withstand Withstand"}},
		{diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 5}, []string{"Times nominal crest"}, []string{"Category"}},
		{diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000}, []string{"4000 V"}, []string{"Category", "Times nominal crest"}},
		{diagram.Withstand{}, nil, []string{"Category", "Times nominal crest", "4000 V"}},
	} {
		err := s.Change("withstand", func(tx *diagram.Tx) error {
			part, _ := tx.Part("panel-1")
			part.Withstand = row.kind
			tx.SetPart(part)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		s.wants(true, row.has...)
		s.wants(false, row.not...)
		if c.Focused() != focused {
			t.Fatal("the focus is lost")
		}
	}
	s.wants(false, "Wiring", "Frequency")
	choosePreset(s, "208Y/120 V")
	s.wants(true, "Wiring", "Frequency", "60 Hz")
	choosePreset(s, "as supplied")
	s.wants(false, "Wiring", "Frequency")
}

func choosePreset(s *shower, name string) {
	visit(s.Object(), func(o fyne.CanvasObject) {
		if list, ok := o.(*look.Select); ok && slices.Contains(list.Options, name) {
			list.SetSelected(name)
		}
	})
}

func TestSystemThatIsNoPreset(t *testing.T) {
	odd := wye
	odd.Voltage = 575
	s := newShower(t, put(t, diagram.Part{ID: "supply-1", Kind: diagram.Supply, System: odd}))
	s.show("supply-1")
	s.wants(true, "other", "575 V")
}

func TestMessageStandsBeneathTheField(t *testing.T) {
	s := newShower(t, house(t))
	s.show("feeder-1")
	var length *entry
	for _, e := range s.fields() {
		if e.Text == "12 ft" {
			length = e
		}
	}
	c := s.window.Canvas()
	c.Focus(length)
	length.SetText("26 xx")
	c.Unfocus()
	s.wants(true, "“26 xx” is not")
	s.show()
	s.wants(true, "“26 xx” is not")
	s.fields()[2].SetText("2") // the conductor
	s.Commit()
	s.wants(true, "“26 xx” is not", "2 AWG")
	if feeder, _ := s.edit.Document().Feeder("feeder-1"); !same(feeder.Length, 12*12*inch) {
		t.Errorf("the feeder is %g m long", feeder.Length)
	}
	c.Focus(length)
	length.SetText("26 ft")
	c.Unfocus()
	s.wants(false, "26 xx")
	s.wants(true, "26 ft")
}

// A wrong text whose field goes is told of, and one that was put right is not.
func TestWrongTextIsNotLostInSilence(t *testing.T) {
	s := newShower(t, house(t))
	var told []string
	s.Lost = func(why string) { told = append(told, why) }
	for _, text := range []string{"26 xx", "26 ft"} {
		s.show("feeder-1")
		s.FocusFirst(s.window.Canvas())
		s.window.Canvas().Focused().(*entry).SetText(text)
		s.window.Canvas().Unfocus()
		s.show("panel-1")
	}
	if want := []string{"Length must be a number with ft, in or m, such as 45 ft; “26 xx” is not"}; !slices.Equal(told, want) {
		t.Errorf("told %q, want %q", told, want)
	}
}

// Of a feeder the length is wanted most, of the others the name.
func TestFirstField(t *testing.T) {
	s := newShower(t, house(t))
	for id, want := range map[diagram.ID]string{"feeder-1": "12 ft", "panel-1": "Main", "load-1": "Pump", "protector-1": "SPD 1"} {
		s.show(id)
		s.FocusFirst(s.window.Canvas())
		if e, ok := s.window.Canvas().Focused().(*entry); !ok || e.Text != want || e.SelectedText() != want {
			t.Errorf("%s: %T has the focus, want the field with %q selected", id, s.window.Canvas().Focused(), want)
		}
	}
}

// Below a name of two lines stands what it is, and what goes along a feeder moves
// no field, however long it is.
func TestHeadsLieBelowEachOther(t *testing.T) {
	s := newShower(t, house(t))
	err := s.Change("rename", func(tx *diagram.Tx) error {
		part, _ := tx.Part("load-1")
		part.Name = "Elevator controller of the north wing"
		tx.SetPart(part)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	s.show("panel-1")
	s.show("feeder-2")
	if got, line := s.name.MinSize().Height, fyne.MeasureText("M", theme.Size(look.SizeHeading), fyne.TextStyle{Bold: true}).Height; got < 2*line {
		t.Fatalf("the name takes %g px, want two lines", got)
	}
	top := func() float32 { return fyne.CurrentApp().Driver().AbsolutePositionForObject(s.fields()[0]).Y }
	bottom := func(o fyne.CanvasObject) float32 { return o.Position().Y + o.MinSize().Height - theme.InnerPadding() }
	if lower := s.about.Position().Y + theme.InnerPadding(); bottom(s.name) > lower+0.5 {
		t.Errorf("the name ends at %g, below it stands text at %g", bottom(s.name), lower)
	}
	before := top()
	for _, text := range []string{"Held all along", "2 300 V to 4 600 V; Held to 52 ft, Tight to 88 ft, then Exceeded", ""} {
		s.verdict.SetText(text)
		s.scroll.Refresh()
		if got := top(); got != before {
			t.Errorf("%q moves the fields from %g to %g", text, before, got)
		}
		if end := fyne.CurrentApp().Driver().AbsolutePositionForObject(s.verdict).Y + s.verdict.MinSize().Height - theme.InnerPadding(); end > top() {
			t.Errorf("%q ends at %g, the fields begin at %g", text, end, top())
		}
	}
}

// The boxes of a board stand below each other.
func TestBoxesStandBelowEachOther(t *testing.T) {
	s := newShower(t, house(t))
	s.window.SetPadded(false)
	s.window.Resize(fyne.NewSize(342, 900))
	s.show("panel-1")
	left := map[float32][]string{}
	visit(s.Object(), func(o fyne.CanvasObject) {
		if check, ok := o.(*look.Check); ok {
			left[check.Position().X] = append(left[check.Position().X], check.Text)
		}
	})
	if len(left) != 1 {
		t.Errorf("got boxes at %v, want all at one place", left)
	}
}

func TestCommit(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	s.FocusFirst(s.window.Canvas())
	s.Commit()
	if s.edit.CanUndo() {
		t.Error("nothing typed is a change")
	}
	s.fields()[0].SetText("Kitchen")
	s.Commit()
	if part, _ := s.edit.Document().Part("panel-1"); part.Name != "Kitchen" {
		t.Errorf("the part is named %q", part.Name)
	}
	s.wants(true, "Kitchen")
}

// A field of a record that is no longer shown has the focus no more.
func TestFocusGoesWithTheForm(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	s.FocusFirst(s.window.Canvas())
	if s.window.Canvas().Focused() == nil {
		t.Fatal("nothing has the focus")
	}
	s.show("load-1")
	if f := s.window.Canvas().Focused(); f != nil {
		t.Errorf("%T still has the focus", f)
	}
}

func TestRebuildKeepsWhatIsShown(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("panel-1")
	before := s.words()
	s.Rebuild()
	if after := s.words(); after != before {
		t.Errorf("got %q, want %q", after, before)
	}
}

func TestUndoShowsInTheFields(t *testing.T) {
	s := newShower(t, house(t))
	s.show("panel-1")
	s.fields()[0].SetText("Kitchen")
	s.Commit()
	s.edit.Undo()
	s.show()
	if got := s.fields()[0].Text; got != "Main" {
		t.Errorf("got %q, want the name before", got)
	}
}

// The panel is as wide whatever is selected: the sheet beside it must not jump.
func TestWidthOfThePanel(t *testing.T) {
	const room = 342 // that the window gives it at least
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		part, _ := tx.Part("panel-1")
		part.Name = "A board whose name goes on for longer than the panel of the details is wide"
		tx.SetPart(part)
	})
	s := newShower(t, doc)
	s.judge()
	for _, c := range conventions {
		s.convention = c
		for _, id := range []diagram.ID{"supply-1", "panel-1", "load-1", "feeder-1", "protector-1"} {
			s.show(id)
			if got := s.Object().MinSize().Width; got > room {
				t.Errorf("%v: with %s selected the panel is %g wide, want at most %d", c, id, got, room)
			}
		}
	}
}
