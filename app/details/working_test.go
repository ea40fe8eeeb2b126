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

// modes returns the lines of the working, each a button.
func (s *shower) modes() []*look.Button {
	var out []*look.Button
	visit(s.Object(), func(o fyne.CanvasObject) {
		if b, ok := o.(*look.Button); ok && strings.Contains(b.Text, "-") {
			out = append(out, b)
		}
	})
	return out
}

func TestWorkingListsLevelsAndSteps(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	for selected, bus := range map[diagram.ID]string{"panel-1": "Main", "load-1": "Pump", "protector-1": "Main"} {
		s.show(selected)
		s.wants(true, "Working", bus+", by the hand rule", "Source:", "VPR of SPD 1")
		if got := len(s.modes()); got != 4 {
			t.Errorf("%s: got %d modes, want 4", selected, got)
		}
	}
	for _, selected := range []diagram.ID{"supply-1", "feeder-1"} {
		s.show(selected)
		s.wants(false, "Working", "by the hand rule")
	}
	s.edit.Select()
	s.show()
	s.wants(false, "Working")
}

func TestWorkingFollowsThePick(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("load-1")
	for i := range s.modes() {
		line := s.modes()[i]
		mode, _, _ := strings.Cut(line.Text, "  ")
		level := s.working.now.figures[i]
		line.OnTapped()
		s.wants(true, strings.Join(strings.Fields(level.why), " "), "Share of the withstand")
		if got := level.key; got != mode {
			t.Errorf("line %d is that of %s, want %s", i, mode, got)
		}
		for n, other := range s.modes() {
			if marked := other.Importance == widget.MediumImportance; marked != (n == i) {
				t.Errorf("with %s picked, line %d is marked: %t", mode, n, marked)
			}
		}
	}
}

// A working that gets shorter while it is scrolled to its end stays in view.
func TestShorterWorkingStaysInView(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("load-1")
	w := s.working
	w.scroll.ScrollToBottom()
	before := w.scroll.Offset.Y
	if before == 0 {
		t.Fatal("the working has no need to be scrolled")
	}
	if err := s.Change("remove", func(tx *diagram.Tx) error { tx.Remove("protector-1"); return nil }); err != nil {
		t.Fatal(err)
	}
	s.judge()
	inView := func() float32 { return w.scroll.Content.MinSize().Height - w.scroll.Offset.Y }
	if got, want := inView(), w.scroll.Size().Height; w.scroll.Offset.Y > 0 && got < want-0.5 {
		t.Errorf("%g px are in view, want %g; scrolled by %g, before by %g", got, want, w.scroll.Offset.Y, before)
	}
	if s.working.scroll.Content.Position().Y != -w.scroll.Offset.Y {
		t.Error("the content does not lie where it is scrolled to")
	}
}

// A new result may order the modes anew: the picked one stays picked.
func TestPickedModeStays(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("load-1")
	last := s.modes()[2]
	mode, _, _ := strings.Cut(last.Text, "  ")
	last.OnTapped()
	if err := s.Change("raise", func(tx *diagram.Tx) error {
		p, _ := tx.Protector("protector-1")
		for _, m := range diagram.Modes() {
			if m.String() == mode {
				p.Modes[m].Level = 5000
			}
		}
		tx.SetProtector(p)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	s.judge()
	if first := s.modes()[0]; !strings.HasPrefix(first.Text, mode) || first.Importance != widget.MediumImportance {
		t.Errorf("the first line is %q, marked %v; want %s, picked", first.Text, first.Importance, mode)
	}
	s.show("panel-1")
	s.show("load-1")
	if first := s.modes()[0]; first.Importance != widget.MediumImportance {
		t.Error("another bus does not begin with its worst mode")
	}
}

// Explaining is dear: it is done for a new result, bus or convention only.
func TestExplainsOnlyWhatIsNew(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("load-1")
	before := s.explained
	for range 5 {
		if err := s.Change("move", func(tx *diagram.Tx) error {
			part, _ := tx.Part("load-1")
			part.At.X++
			tx.SetPart(part)
			return nil
		}); err != nil {
			t.Fatal(err)
		}
	}
	if s.explained != before {
		t.Errorf("explained %d times without a new result", s.explained-before)
	}
	s.judge()
	s.convention = unit.IEC
	s.show()
	if got := s.explained - before; got != 2 {
		t.Errorf("explained %d times for a new result and other units, want 2", got)
	}
	s.wants(true, "L-PE")
}

func TestLevelText(t *testing.T) {
	for _, row := range []struct {
		name  string
		level analysis.Level
		c     unit.Convention
		want  string
	}{
		{"judged", analysis.Level{Mode: diagram.LineEarth, Known: true, Volts: 1240, Withstand: 4000, Verdict: analysis.Held, Judged: true}, unit.NorthAmerican, "L-G  1 240 V, 31 % of 4 000 V: Held"},
		{"in the words of IEC", analysis.Level{Mode: diagram.LineEarth, Known: true, Volts: 1240, Withstand: 4000, Verdict: analysis.Held, Judged: true}, unit.IEC, "L-PE  1 240 V, 31 % of 4 000 V: Held"},
		{"no figure", analysis.Level{Mode: diagram.LineLine, Verdict: analysis.Unreached, Judged: true}, unit.NorthAmerican, "L-L  no figure: Unreached"},
		{"not judged", analysis.Level{Mode: diagram.NeutralEarth, Known: true, Volts: 800}, unit.NorthAmerican, "N-G  800 V: not evaluated"},
	} {
		if got := strings.ReplaceAll(levelText(row.level, row.c), "\u00a0", " "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
