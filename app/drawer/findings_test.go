package drawer

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

func change(*diagram.Tx) error { return nil }

// sample is a finding of each severity and some more, sorted as results are.
func sample() []analysis.Finding {
	lead := analysis.NewMend("shorten the leads", "", change)
	return []analysis.Finding{
		{Rule: "cover.not held", Severity: analysis.Error, Subject: "cover", What: "Main is not covered, L-G", Why: "no protector reaches it.", Remedy: "attach one", Source: "common practice, no source", Records: []diagram.ID{"panel-1", "load-1"}, Critical: true},
		{Rule: "leads.long", Severity: analysis.Warning, Subject: "leads", What: "SPD 1: long leads", Why: "the leads\u00a0are long.", Records: []diagram.ID{"protector-1"}, Mend: lead},
		{Rule: "leads.long", Severity: analysis.Warning, Subject: "leads", What: "SPD 2: long leads", Why: "the leads are long.", Records: []diagram.ID{"protector-2"}, Mend: lead},
		{Rule: "supply.far", Severity: analysis.Warning, Subject: "supply", What: "Pump is far", Why: "the feeder is long.", Records: []diagram.ID{"load-1"}, Working: analysis.Working{{Label: "length", Result: 90, Unit: "m", Source: "from the sheet"}}},
		{Rule: "nameplate.title", Severity: analysis.Remark, Subject: "nameplate", What: "The sheet has no title"},
	}
}

// asked is what was asked of the hands.
type asked struct {
	went     [][]diagram.ID
	mended   [][]analysis.Finding
	copied   int
	aside    []string
	again    []string
	settings []Settings
}

// shower is a list of findings in a window, as the program shows it.
type shower struct {
	*Findings
	t     *testing.T
	asked asked
	state State
}

// house is a board with a protector, and a load with another.
func house(t *testing.T) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main"})
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump"})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}})
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD 1"})
		tx.SetProtector(diagram.Protector{ID: "protector-2", Plan: diagram.FirstPlan, Bus: "load-1", Name: "SPD 2"})
	})
}

func newShower(t *testing.T, settings Settings) *shower {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	s := &shower{t: t}
	s.Findings = NewFindings(Hands{
		Copy:  func() { s.asked.copied++ },
		Aside: func(f analysis.Finding) { s.asked.aside = append(s.asked.aside, f.What) },
		Again: func(a analysis.SetAside) { s.asked.again = append(s.asked.again, a.What) },
		GoTo: func(records []diagram.ID) {
			s.asked.went = append(s.asked.went, records)
			s.state.Selected = records // as the program does
			s.Show(s.state)
		},
		Mend:     func(f []analysis.Finding) { s.asked.mended = append(s.asked.mended, f) },
		Remember: func(to Settings) { s.asked.settings = append(s.asked.settings, to) },
	}, settings)
	w := test.NewWindow(s.Object())
	w.Resize(fyne.NewSize(900, 300))
	s.state = State{Document: house(t)}
	s.find(sample())
	return s
}

// find shows findings as those of a new result.
func (s *shower) find(findings []analysis.Finding) {
	s.state.Findings = findings
	s.Show(s.state)
}

func (s *shower) pick(records ...diagram.ID) {
	s.state.Selected = records
	s.Show(s.state)
}

// listed returns the lines of the list: the text of a finding, or of a heading
// in brackets.
func (s *shower) listed() []string {
	var out []string
	for i := range s.list.Length() {
		r := s.row(i)
		text := r.what.Text
		if s.lines[i].isHeading() {
			text = "[" + text + " " + r.about.Text() + "]"
		}
		out = append(out, text)
	}
	return out
}

func (s *shower) row(i int) *row {
	r := s.list.CreateItem().(*row)
	s.list.UpdateItem(i, r)
	return r
}

func (s *shower) wants(when string, want ...string) {
	s.t.Helper()
	if got := s.listed(); !slices.Equal(got, want) {
		s.t.Errorf("%s: got %q, want %q", when, got, want)
	}
	if left := len(s.kept) < len(s.state.Findings); s.bar.told.Visible() != left {
		s.t.Errorf("%s: that something is left out is told: %t", when, !left)
	}
}

// reads returns what the whole finding says.
func (s *shower) reads() string {
	return strings.ReplaceAll(strings.Join(textsOf(s.whole.text.Segments), "|"), "\u00a0", " ")
}

func (s *shower) key(names ...fyne.KeyName) {
	for _, name := range names {
		s.list.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

const (
	mainLine, leads1, leads2, pumpLine, titleLine = "Main is not covered, L-G", "SPD 1: long leads", "SPD 2: long leads", "Pump is far", "The sheet has no title"
)

func TestRows(t *testing.T) {
	s := newShower(t, Settings{})
	s.wants("at first", mainLine, leads1, leads2, pumpLine, titleLine)
	icons := map[string]analysis.Severity{}
	for i, finding := range sample() {
		r := s.row(i)
		if want := map[bool]string{true: "critical · cover", false: finding.Subject}[finding.Critical]; r.about.Text() != want {
			t.Errorf("row %d: got %q at its right, want %q", i, r.about.Text(), want)
		}
		if other, taken := icons[r.icon.Resource.Name()]; taken && other != finding.Severity {
			t.Errorf("row %d has the icon of another severity, %q", i, r.icon.Resource.Name())
		}
		icons[r.icon.Resource.Name()] = finding.Severity
	}
	if len(icons) != severities {
		t.Errorf("%d severities have %d icons", severities, len(icons))
	}
}

func TestFilter(t *testing.T) {
	for _, row := range []struct {
		name string
		act  func(*shower)
		want []string
	}{
		{"errors off", func(s *shower) { test.Tap(s.bar.severities[analysis.Error]) }, []string{leads1, leads2, pumpLine, titleLine}},
		{"warnings and notes off", func(s *shower) {
			test.Tap(s.bar.severities[analysis.Warning])
			test.Tap(s.bar.severities[analysis.Remark])
		}, []string{mainLine}},
		{"off and on again", func(s *shower) {
			test.Tap(s.bar.severities[analysis.Error])
			test.Tap(s.bar.severities[analysis.Error])
		}, []string{mainLine, leads1, leads2, pumpLine, titleLine}},
		{"a subject", func(s *shower) { s.bar.subject.SetSelected("Leads (2)") }, []string{leads1, leads2}},
		{"all subjects again", func(s *shower) {
			s.bar.subject.SetSelected("Leads (2)")
			s.bar.subject.SetSelected(allSubjects)
		}, []string{mainLine, leads1, leads2, pumpLine, titleLine}},
		{"a search in the reason, whatever the case and the spaces", func(s *shower) { test.Type(s.bar.search, "LEADS are") }, []string{leads1, leads2}},
		{"words in any place", func(s *shower) { test.Type(s.bar.search, "far feeder") }, []string{pumpLine}},
		{"a search for a part", func(s *shower) { test.Type(s.bar.search, "pump") }, []string{mainLine, pumpLine}},
		{"a search for nothing there", func(s *shower) { test.Type(s.bar.search, "boat") }, nil},
		{"the selected part and its protector", func(s *shower) { s.pick("panel-1"); s.bar.only.SetChecked(true) }, []string{mainLine, leads1}},
		{"the selected protector", func(s *shower) { s.bar.only.SetChecked(true); s.pick("protector-2") }, []string{leads2}},
		{"nothing selected", func(s *shower) { s.bar.only.SetChecked(true) }, nil},
		{"two filters", func(s *shower) { test.Type(s.bar.search, "long"); s.bar.subject.SetSelected("Supply (1)") }, []string{pumpLine}},
		{"all shown again", func(s *shower) {
			test.Type(s.bar.search, "long")
			test.Tap(s.bar.severities[analysis.Warning])
			s.bar.only.SetChecked(true)
			s.bar.subject.SetSelected("Supply (1)")
			test.Tap(s.bar.all)
		}, []string{mainLine, leads1, leads2, pumpLine, titleLine}},
	} {
		s := newShower(t, Settings{})
		row.act(s)
		s.wants(row.name, row.want...)
		if left := len(row.want) < len(s.state.Findings); s.bar.all.Visible() != left || s.none.Visible() != (len(row.want) == 0) {
			t.Errorf("%s: all can be shown: %t, nothing is left: %t", row.name, s.bar.all.Visible(), s.none.Visible())
		}
		if len(row.want) == 0 && (s.reads() != "" || !s.body.Visible()) {
			t.Errorf("%s: with nothing listed it reads %q", row.name, s.reads())
		}
	}
}

func TestTold(t *testing.T) {
	s := newShower(t, Settings{})
	test.Type(s.bar.search, "long")
	if got := s.bar.told.Text(); got != "3 of 5 shown" || !s.bar.told.Visible() {
		t.Errorf("got %q, seen: %t", got, s.bar.told.Visible())
	}
	for severity, want := range map[analysis.Severity]string{analysis.Error: "1", analysis.Warning: "3", analysis.Remark: "1"} {
		if got := s.bar.severities[severity].Text; got != want {
			t.Errorf("got %q, want %q: the filter does not change the counts", got, want)
		}
	}
	if got := s.bar.subject.Options; !slices.Equal(got, []string{allSubjects, "Cover (1)", "Leads (2)", "Nameplate (1)", "Supply (1)"}) {
		t.Errorf("got the subjects %q", got)
	}
}

// The list stays filtered from one result to the next, also where what was
// picked is gone for the moment; on another sheet it begins anew.
func TestFilterLasts(t *testing.T) {
	s := newShower(t, Settings{})
	s.bar.subject.SetSelected("Leads (2)")
	test.Type(s.bar.search, "2")
	s.find(sample()[:2])
	s.wants("another result")
	s.find(sample()[3:])
	if got := s.bar.subject.Selected; got != "Leads (0)" {
		t.Errorf("the subject that is gone: %q is picked", got)
	}
	s.find(sample())
	s.wants("back again", leads2)
	s.state.Document = house(t)
	s.find(sample())
	s.wants("another sheet", mainLine, leads1, leads2, pumpLine, titleLine)
	if s.bar.search.Text != "" || s.bar.subject.Selected != allSubjects {
		t.Errorf("another sheet: %q is searched for in %q", s.bar.search.Text, s.bar.subject.Selected)
	}
}

// In the words of IEC a mode is listed, read and found.
func TestWordsOfTheConvention(t *testing.T) {
	s := newShower(t, Settings{})
	s.state.Convention = unit.IEC
	s.Show(s.state)
	if got := s.row(0).what.Text; got != "Main is not covered, L-PE" {
		t.Errorf("the row says %q", got)
	}
	if got := s.reads(); !strings.HasPrefix(got, "Main is not covered, L-PE|") {
		t.Errorf("the whole says %q", got)
	}
	test.Type(s.bar.search, "l-pe")
	if len(s.kept) != 1 {
		t.Errorf("a search for L-PE finds %d", len(s.kept))
	}
}

func TestClickGoesThere(t *testing.T) {
	s := newShower(t, Settings{})
	for _, i := range []int{1, 0, 0} {
		s.list.Select(i)
	}
	want := [][]diagram.ID{{"protector-1"}, {"panel-1", "load-1"}, {"panel-1", "load-1"}}
	if !slices.EqualFunc(s.asked.went, want, slices.Equal) {
		t.Errorf("went to %q, want %q: the same row may be clicked again", s.asked.went, want)
	}
}

// Going to a finding selects its records; that must not take the others off a
// list of what is selected. A selection on the sheet does.
func TestGoingThereKeepsTheList(t *testing.T) {
	s := newShower(t, Settings{})
	s.pick("panel-1")
	s.bar.only.SetChecked(true)
	s.list.Select(1)
	s.wants("after a click", mainLine, leads1)
	s.find(sample())
	s.wants("after the next result", mainLine, leads1)
	s.pick("load-1")
	s.wants("after a selection", mainLine, leads2, pumpLine)
}

func TestKeys(t *testing.T) {
	s := newShower(t, Settings{})
	for _, row := range []struct {
		name string
		key  fyne.KeyName
		want int
		went int
	}{
		{"down", fyne.KeyDown, 1, 0},
		{"down", fyne.KeyDown, 2, 0},
		{"up", fyne.KeyUp, 1, 0},
		{"end", fyne.KeyEnd, 4, 0},
		{"down at the end", fyne.KeyDown, 4, 0},
		{"enter", fyne.KeyReturn, 4, 1},
		{"enter again", fyne.KeyEnter, 4, 2},
		{"page up", fyne.KeyPageUp, 0, 2},
		{"page down", fyne.KeyPageDown, 4, 2},
		{"home", fyne.KeyHome, 0, 2},
		{"up at the top", fyne.KeyUp, 0, 2},
		{"space", fyne.KeySpace, 0, 3},
	} {
		s.key(row.key)
		if s.at != row.want || len(s.asked.went) != row.went {
			t.Errorf("%s: the cursor is at %d, %d times there; want %d, %d", row.name, s.at, len(s.asked.went), row.want, row.went)
		}
		if got, want := s.reads(), sample()[row.want].What; !strings.HasPrefix(got, want) {
			t.Errorf("%s: reads %q, want %q", row.name, got, want)
		}
	}
	s.find(nil)
	s.key(fyne.KeyDown, fyne.KeyReturn, fyne.KeyLeft)
}

// The search field leads to the list and back to the sheet.
func TestKeysOfTheSearch(t *testing.T) {
	s := newShower(t, Settings{})
	c := fyne.CurrentApp().Driver().CanvasForObject(s.list)
	test.Type(s.bar.search, "long")
	s.bar.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if c.Focused() != fyne.Focusable(s.list) || !s.list.focused {
		t.Errorf("%T has the focus, want the list", c.Focused())
	}
	s.key(fyne.KeyEscape)
	if c.Focused() != nil || s.list.focused {
		t.Errorf("%T has the focus, want nothing", c.Focused())
	}
	c.Focus(s.bar.search)
	s.bar.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if len(s.kept) != 5 || c.Focused() == nil {
		t.Error("the first Escape does not clear the field")
	}
	s.bar.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c.Focused() != nil {
		t.Error("the second Escape does not leave the field")
	}
}

func TestCursorIsSeen(t *testing.T) {
	s := newShower(t, Settings{})
	s.key(fyne.KeyDown)
	look := func(i int) string {
		r := s.row(i)
		return fmt.Sprint(r.ground.FillColor, r.ground.StrokeWidth)
	}
	if look(1) == look(0) || look(0) != look(2) {
		t.Errorf("the line with the cursor looks like the others")
	}
	before := look(1)
	s.list.takeFocus()
	if look(1) == before {
		t.Errorf("that keys go to the list is not seen")
	}
}

// The whole of a finding stands beside the list: of the first one until the
// cursor is on another, and of that one as long as it is listed.
func TestWholeFinding(t *testing.T) {
	s := newShower(t, Settings{})
	first := "Main is not covered, L-G|Error · cover · concerns critical equipment|Why: |no protector reaches it.|Mend: |attach one|Rule: |common practice, no source"
	if got := s.reads(); got != first {
		t.Errorf("at first: got %q, want %q", got, first)
	}
	s.list.Select(3)
	second := "Pump is far|Warning · supply|Why: |the feeder is long."
	if got := s.reads(); got != second {
		t.Errorf("after a click: got %q, want %q", got, second)
	}
	if got := len(s.whole.working.Objects); got != 2 {
		t.Errorf("the working has %d objects, want a heading and a step", got)
	}
	changed := sample()[1:]
	changed[2].What = "Pump is farther"
	s.find(changed)
	if got := s.reads(); !strings.HasPrefix(got, "Pump is farther|") || s.at != 2 {
		t.Errorf("in another list: got %q, at %d", got, s.at)
	}
	without := slices.Delete(sample(), 3, 4)
	s.find(without[:3])
	if got := s.reads(); got != "" || s.at != -1 || len(s.whole.working.Objects) != 0 {
		t.Errorf("once it is gone: got %q at %d, want nothing, since no other is about its record", got, s.at)
	}
	s.find(sample())
	s.key(fyne.KeyEnd)
	s.ShowFirst()
	if got := s.reads(); got != first {
		t.Errorf("the first one: got %q", got)
	}
}

// After a mend the cursor is on what sheet and details show: on the next finding
// of the record, or else on none, and the keys go on from its line.
func TestCursorAfterAMend(t *testing.T) {
	lead := analysis.NewMend("shorten", "", change)
	of := func(record diagram.ID, what string) analysis.Finding {
		return analysis.Finding{Rule: "leads." + what, Subject: "leads", Records: []diagram.ID{record}, What: what, Mend: lead}
	}
	list := []analysis.Finding{of("a", "A1"), of("b", "B1"), of("a", "A2"), of("b", "B2"), of("c", "C1")}
	for _, row := range []struct {
		mend, key int
		want      string
	}{{0, 0, "A2"}, {1, 0, "B2"}, {3, 0, "B1"}, {4, 0, ""}, {4, 1, "B2"}, {4, -1, "B2"}, {0, 1, "B2"}} {
		s := newShower(t, Settings{})
		s.find(list)
		s.list.Select(row.mend)
		s.whole.mend.OnTapped()
		s.find(slices.Delete(slices.Clone(list), row.mend, row.mend+1))
		if row.key != 0 {
			s.step(row.key)
		}
		got, _, _ := strings.Cut(s.reads(), "|")
		if got != row.want || (s.at < 0) != (row.want == "") {
			t.Errorf("%s mended, %d lines on: got %q at line %d, want %q", list[row.mend].What, row.key, got, s.at, row.want)
		}
	}
}

// Of two findings on one subject and record each is picked, whatever they say in the
// next result.
func TestTwoFindingsOfOneRecord(t *testing.T) {
	s := newShower(t, Settings{})
	two := func(figure string) []analysis.Finding {
		return []analysis.Finding{
			{Rule: "leads.long", Subject: "leads", Records: []diagram.ID{"protector-1"}, What: "A" + figure},
			{Rule: "leads.thin", Detail: "live", Subject: "leads", Records: []diagram.ID{"protector-1"}, What: "B" + figure},
			{Rule: "leads.thin", Detail: "earth", Subject: "leads", Records: []diagram.ID{"protector-1"}, What: "C" + figure},
		}
	}
	for line, name := range []string{"A", "B", "C"} {
		s.find(two(" 1"))
		s.list.Select(line)
		s.find(two(" 2"))
		if s.at != line || s.reads() != name+" 2|Note · leads" {
			t.Errorf("the cursor is at %d rather than %d, and it reads %q", s.at, line, s.reads())
		}
	}
}

// A click may make the list another one.
func TestClickThatChangesTheList(t *testing.T) {
	s := newShower(t, Settings{})
	s.hands.GoTo = func([]diagram.ID) { s.find(nil) }
	s.list.Select(2)
	if s.list.Length() != 0 {
		t.Errorf("got %d rows", s.list.Length())
	}
}

func TestNoFindings(t *testing.T) {
	s := newShower(t, Settings{})
	for _, row := range []struct {
		findings []analysis.Finding
		empty    bool
	}{{nil, true}, {sample(), false}, {nil, true}} {
		s.find(row.findings)
		if s.empty.Visible() != row.empty || s.body.Visible() == row.empty {
			t.Errorf("with %d findings it says that there are none: %t", len(row.findings), s.empty.Visible())
		}
	}
}

func BenchmarkShow(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.Theme{})
	f := NewFindings(Hands{}, Settings{Grouping: ByPart})
	w := test.NewWindow(f.Object())
	w.Resize(fyne.NewSize(1000, 300))
	doc := diagram.New()
	lists := [2][]analysis.Finding{}
	for i := range lists {
		for n := range 400 {
			part := diagram.ID(fmt.Sprintf("part-%d", n/3))
			lists[i] = append(lists[i], analysis.Finding{Rule: fmt.Sprintf("cover.%d", n%3), Severity: analysis.Severity(n % 3), Subject: "cover", What: fmt.Sprintf("Finding %d in result %d", n, i), Records: []diagram.ID{part}})
		}
	}
	for i := 0; b.Loop(); i++ {
		f.Show(State{Document: doc, Findings: lists[i%2]})
	}
}
