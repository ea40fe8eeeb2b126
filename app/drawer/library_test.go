package drawer

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// shelf is a library in a window, and what was asked of its hands.
type shelf struct {
	*Library
	t     *testing.T
	asked []string
	state LibraryState
	check int // how often an entry was checked
}

// kinds are one of the user's and two that come with the program. The second
// one does not fit any bus, and the third is doubtful.
func kinds() []library.Entry {
	modes := [diagram.ModeCount]diagram.ModeRating{diagram.LineEarth: {Connected: true, Level: 1200, MCOV: 320}, diagram.NeutralEarth: {Connected: true, Level: 1000, MCOV: 255, Switching: true}}
	return []library.Entry{
		{Protector: diagram.Protector{ID: "own-1", Name: "Quay box, 480 V", Type: diagram.Type2, Modes: modes, In: 20e3, SCCR: 200e3, Note: "As bought."}, Own: true},
		{Protector: diagram.Protector{ID: "low", Name: "Low, 208 V", Modes: modes, In: 10e3}},
		{Protector: diagram.Protector{ID: "weak", Name: "Weak, 480 V", Modes: modes, Rating: diagram.Up, Leads: diagram.Leads{Phase: diagram.Lead{Length: 0.5}}}},
	}
}

func found(e library.Entry) []analysis.Finding {
	switch e.Protector.ID {
	case "low":
		return []analysis.Finding{
			{Severity: analysis.Error, Subject: analysis.SubjectLeads, What: "Low on Main has long leads", Says: "has long leads", Why: "they are long"},
			{Severity: analysis.Error, Subject: analysis.SubjectVoltage, What: "Low on Main is made for 208Y/120, and L-G has more", Says: "is made for 208Y/120, and L-G has more", Why: "it burns"},
		}
	case "weak":
		return []analysis.Finding{{Severity: analysis.Warning, Subject: analysis.SubjectFault, What: "The SCCR is low", Why: "more can flow"}}
	}
	if e.Protector.ID == "bare" {
		return []analysis.Finding{{Severity: analysis.Warning, Subject: analysis.SubjectBreaker, What: "Bare on Main asks for a fuse", Says: "asks for a fuse", Why: "it may burst"}}
	}
	return []analysis.Finding{{Severity: analysis.Remark, Subject: analysis.SubjectFault, What: "The fault current is not known", Why: "nothing says it"}}
}

func newShelf(t *testing.T) *shelf {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	s := &shelf{t: t}
	with := func(what string) func(library.Entry) {
		return func(e library.Entry) { s.asked = append(s.asked, what+" "+string(e.Protector.ID)) }
	}
	plain := func(what string) func() { return func() { s.asked = append(s.asked, what) } }
	s.Library = NewLibrary(LibraryHands{
		Put: with("put"), Replace: with("replace"), Add: plain("add"), Edit: with("edit"), Duplicate: with("duplicate"), Remove: with("remove"),
		Import: plain("import"), Export: plain("export"), Reload: plain("reload"), Seen: plain("seen"),
	})
	w := test.NewWindow(s.Object())
	w.Resize(fyne.NewSize(1000, 420))
	s.state = LibraryState{Entries: kinds(), Why: "Select a board."}
	s.Show(s.state)
	return s
}

// onBoard selects the board, with a result.
func (s *shelf) onBoard() {
	s.state.Buses, s.state.BusName, s.state.Kind, s.state.Why = []diagram.ID{"panel-1"}, "Main", diagram.Panel, ""
	s.state.Result = &analysis.Result{}
	s.state.Check = func(e library.Entry) []analysis.Finding { s.check++; return found(e) }
	s.Show(s.state)
}

func (s *shelf) ids() []string {
	var out []string
	for _, e := range s.kept {
		out = append(out, string(e.Protector.ID))
	}
	return out
}

// line returns what a line of the list says.
func (s *shelf) line(i int) string {
	r := newEntryRow()
	s.update(i, r)
	return r.name.Text + " | " + r.whose.Text() + " | " + r.about.Text()
}

// words returns all that is written, on one line and with plain spaces.
func (s *shelf) words() string {
	var out []string
	visitAll(s.Object(), func(o fyne.CanvasObject) {
		if text, ok := o.(*canvas.Text); ok {
			out = append(out, strings.Fields(strings.ReplaceAll(text.Text, "\u00a0", " "))...)
		}
	})
	return strings.Join(out, " ")
}

func visitAll(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	if !o.Visible() {
		return
	}
	f(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			visitAll(child, f)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			visitAll(child, f)
		}
	}
}

func TestLibraryTellsWhatFits(t *testing.T) {
	s := newShelf(t)
	if got, want := s.line(0), "Quay box, 480 V | mine | SCCR 200 kA · In 20 kA · MCOV 320 V L-G"; strings.ReplaceAll(got, "\u00a0", " ") != want {
		t.Errorf("with nothing selected: got %q, want %q", got, want)
	}
	s.onBoard()
	for i, want := range []string{
		"Quay box, 480 V | mine | OK · SCCR 200 kA · In 20 kA · MCOV 320 V L-G",
		"Low, 208 V | built in | Is made for 208Y/120, and L-G has more",
		"Weak, 480 V | built in | The SCCR is low",
	} {
		if got := strings.ReplaceAll(s.line(i), "\u00a0", " "); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	s.state.Convention = unit.IEC
	s.Show(s.state)
	if got, want := s.line(1), "Low, 208 V | built in | Is made for 208Y/120, and L-PE has more"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestLibraryKeepsWhatFits(t *testing.T) {
	s := newShelf(t)
	if !s.bar.only.Disabled() {
		t.Error("with nothing selected one can ask for what fits")
	}
	s.onBoard()
	s.bar.only.SetChecked(true)
	if got, want := s.ids(), []string{"own-1"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := s.bar.told.Text(); got != "1 of 3 shown" {
		t.Errorf("it says %q", got)
	}
	s.bar.search.SetText("208")
	if got := s.words(); len(s.kept) > 0 || !strings.Contains(got, "No protector of the library is OK for Main and has these words.") {
		t.Errorf("got %q; it says %q", s.ids(), got)
	}
	s.bar.all.OnTapped()
	if got, want := s.ids(), []string{"own-1", "low", "weak"}; !slices.Equal(got, want) || s.bar.only.Checked {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What is found about the breaker alone is mended where it is installed.
func TestLibraryKeepsWhatNeedsABreaker(t *testing.T) {
	s := newShelf(t)
	s.state.Entries = append(kinds(), library.Entry{Protector: diagram.Protector{ID: "bare", Name: "Bare, 480 V"}})
	s.onBoard()
	s.bar.only.SetChecked(true)
	if got, want := s.ids(), []string{"own-1", "bare"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := s.line(1), "Bare, 480 V | built in | OK for this panel, but asks for a fuse"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestLibrarySearch(t *testing.T) {
	s := newShelf(t)
	s.bar.search.SetText("20 kA")
	if got, want := s.ids(), []string{"own-1"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	s.Pick("weak")
	if e, ok := s.entry(); !ok || e.Protector.ID != "weak" || len(s.kept) != 3 {
		t.Errorf("got %q of %q, want weak of all", e.Protector.ID, s.ids())
	}
}

// The cursor stays on its entry while that is listed.
func TestLibraryCursor(t *testing.T) {
	s := newShelf(t)
	s.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if e, _ := s.entry(); e.Protector.ID != "weak" {
		t.Errorf("got %q, want the last one", e.Protector.ID)
	}
	s.state.Entries = slices.Concat(kinds()[2:], kinds()[:2])
	s.Show(s.state)
	if e, _ := s.entry(); e.Protector.ID != "weak" || s.at != 0 {
		t.Errorf("got %q in line %d, want the same in the first", e.Protector.ID, s.at)
	}
	s.bar.search.SetText("quay")
	if e, _ := s.entry(); e.Protector.ID != "own-1" {
		t.Errorf("got %q, want what is left", e.Protector.ID)
	}
}

func TestLibraryButtons(t *testing.T) {
	s := newShelf(t)
	if !s.plate.put.Disabled() || !s.bar.add.Disabled() || s.plate.replace.Visible() || s.plate.duplicate.Disabled() {
		t.Error("with nothing selected: want no placing, no adding, and duplicating")
	}
	if !strings.Contains(s.words(), "Select a board.") {
		t.Errorf("it does not say why: %q", s.words())
	}
	s.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.onBoard()
	s.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.plate.put.OnTapped()
	s.plate.edit.OnTapped()
	s.plate.remove.OnTapped()
	s.state.Protector, s.state.ProtectorName = "protector-1", "SPD 1"
	s.Show(s.state)
	s.plate.replace.OnTapped()
	s.bar.add.OnTapped()
	s.bar.from.OnTapped()
	s.bar.to.OnTapped()
	s.moveTo(1)
	s.plate.duplicate.OnTapped()
	want := []string{"put own-1", "put own-1", "edit own-1", "remove own-1", "replace own-1", "add", "import", "export", "duplicate low"}
	if !slices.Equal(s.asked, want) {
		t.Errorf("got %q, want %q", s.asked, want)
	}
	if s.plate.edit.Visible() || s.plate.remove.Visible() {
		t.Error("what is built in can be edited")
	}
	for button, want := range map[string]string{
		s.plate.put.Text: "Put it on Main", s.plate.replace.Text: "Replace SPD 1", s.bar.add.Text: "Add SPD 1 to my library", s.bar.only.Text: "Only those OK for Main",
	} {
		if button != want {
			t.Errorf("got %q, want %q", button, want)
		}
	}
}

// Where the user's file is broken, nothing that would write it can be pressed,
// and the reason is told.
func TestLibraryOfABrokenFile(t *testing.T) {
	s := newShelf(t)
	s.state.Broken = "line 3: nonsense"
	s.state.Protector, s.state.ProtectorName = "protector-1", "SPD 1"
	s.onBoard()
	if !strings.Contains(s.words(), "line 3: nonsense") || !s.bar.reload.Visible() {
		t.Errorf("it says %q", s.words())
	}
	for name, off := range map[string]bool{
		"add": s.bar.add.Disabled(), "import": s.bar.from.Disabled(), "export": s.bar.to.Disabled(),
		"duplicate": s.plate.duplicate.Disabled(), "edit": s.plate.edit.Disabled(), "remove": s.plate.remove.Disabled(),
		"not put": !s.plate.put.Disabled(), "not replace": !s.plate.replace.Disabled(),
	} {
		if !off {
			t.Errorf("%s is wrong", name)
		}
	}
	s.bar.reload.OnTapped()
	s.state.Broken = ""
	s.Show(s.state)
	if s.bar.reload.Visible() || s.bar.add.Disabled() || !slices.Equal(s.asked, []string{"reload"}) {
		t.Errorf("mended: asked %q", s.asked)
	}
}

func TestNameplate(t *testing.T) {
	s := newShelf(t)
	s.onBoard()
	for _, want := range []string{
		"Quay box, 480 V Mine", "The fault current is not known. Nothing says it.", "Type or class type 2", "In 20 kA", "SCCR 200 kA",
		"Mode VPR MCOV L-G 1 200 V 320 V N-G, gap 1 000 V 255 V", "As bought.",
	} {
		if !strings.Contains(s.words(), want) {
			t.Errorf("it lacks %q: %q", want, s.words())
		}
	}
	s.state.Convention = unit.IEC
	s.Show(s.state)
	s.moveTo(2)
	for _, want := range []string{"Mode Up Uc L-PE 1 200 V", "Leads phase 500 mm", "Built in"} {
		if !strings.Contains(s.words(), want) {
			t.Errorf("in IEC it lacks %q: %q", want, s.words())
		}
	}
}

// Checking is dear: it is done once for a bus and a result, and neither while a
// newer result is due nor while nobody sees it.
func TestLibraryChecksOnlyWhatIsNew(t *testing.T) {
	s := newShelf(t)
	s.onBoard()
	after := func(what string, more int) {
		t.Helper()
		before := s.check
		s.Show(s.state)
		if got := s.check - before; got != more {
			t.Errorf("%s: checked %d entries, want %d", what, got, more)
		}
	}
	after("nothing new", 0)
	s.state.ProtectorName = "other"
	after("another name", 0)
	s.state.Result, s.state.Due = &analysis.Result{}, true
	after("a newer result is due", 0)
	if got := s.line(0); !strings.Contains(got, "| OK · ") {
		t.Errorf("meanwhile it says %q", got)
	}
	s.state.Due = false
	after("a new result", 3)
	s.state.Entries = append(kinds(), library.Entry{Protector: diagram.Protector{ID: "own-2"}, Own: true})
	after("one more entry", 1)
	s.state.Hidden, s.state.Result = true, &analysis.Result{}
	after("hidden", 0)
	s.state.Hidden = false
	after("seen again", 4)
	s.state.Buses = []diagram.ID{"load-1"}
	after("another bus", 4)
}

func TestSeenIsTold(t *testing.T) {
	s := newShelf(t)
	s.Object().Hide()
	s.Object().Show()
	s.Object().Show()
	if want := []string{"seen"}; !slices.Equal(s.asked, want) {
		t.Errorf("got %q, want %q", s.asked, want)
	}
}

// What a protector of class I is chosen by is read in the list of a small screen.
func TestRatingsHaveRoom(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	r := newEntryRow()
	w := test.NewTempWindow(t, r)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(450, 44)) // half of the drawer at 1366 px
	p := diagram.Protector{Rating: diagram.Up, In: 25e3, Imax: 100e3, Iimp: 12.5e3, SCCR: 100e3}
	p.Modes[diagram.LineEarth] = diagram.ModeRating{Connected: true, Level: 1500, MCOV: 275}
	r.about.SetText("OK · " + ratingsOf(p, unit.IEC))
	said := ""
	for _, o := range test.LaidOutObjects(r) {
		if text, ok := o.(*canvas.Text); ok {
			said += text.Text
		}
	}
	for _, want := range []string{"Iimp 12.5 kA", "SCCR 100 kA", "In 25 kA", "Imax 100 kA"} {
		if !strings.Contains(strings.ReplaceAll(said, "\u00a0", " "), want) {
			t.Errorf("%s is cut: %q", want, said)
		}
	}
}
