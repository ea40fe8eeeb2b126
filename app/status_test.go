package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
)

func TestFindingText(t *testing.T) {
	some := func(severities ...analysis.Severity) *analysis.Result {
		out := &analysis.Result{}
		for _, s := range severities {
			out.Findings = append(out.Findings, analysis.Finding{Severity: s})
		}
		return out
	}
	judged := &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{"panel-1": {Levels: make([]analysis.Level, 1)}}}
	for _, row := range []struct {
		name   string
		result *analysis.Result
		want   string
	}{
		{"no result", nil, ""},
		{"an empty sheet", &analysis.Result{}, ""},
		{"nothing wrong", judged, "no findings"},
		{"one of each", some(analysis.Error, analysis.Warning, analysis.Remark), "1 error · 1 warning · 1 note"},
		{"several", some(analysis.Error, analysis.Error, analysis.Remark, analysis.Remark), "2 errors · 2 notes"},
	} {
		if got := findingText(row.result); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// In a narrow window things are left out whole, and the caution and the number
// of findings stay.
func TestStatusLineInANarrowWindow(t *testing.T) {
	a := start(t)
	a.app.Settings().SetTheme(a.look)
	a.workOn(demo(t, 0), "")
	shown := func(f *look.Faint) bool { return f.Visible() }
	for _, row := range []struct {
		width                   float32
		engine, verdicts, saved bool
	}{{1800, true, true, true}, {1360, false, true, true}, {1000, false, false, true}, {1800, true, true, true}} {
		a.status.object.Resize(fyne.NewSize(row.width, 30))
		if shown(a.status.engine) != row.engine || shown(a.status.verdicts) != row.verdicts || shown(a.status.saved) != row.saved {
			t.Errorf("%g wide: engine %t, verdicts %t, saved %t", row.width, shown(a.status.engine), shown(a.status.verdicts), shown(a.status.saved))
		}
		right := float32(0)
		for _, o := range a.status.line.Objects {
			if !o.Visible() {
				continue
			}
			if o.Position().X < right-0.5 {
				t.Errorf("%g wide: %q lies on what is left of it", row.width, wordsOf(o))
			}
			right = o.Position().X + o.Size().Width
		}
		if right > row.width {
			t.Errorf("%g wide: the line reaches to %g", row.width, right)
		}
		got := wordsOf(a.status.object)
		if !strings.Contains(got, shortCaution) || !strings.Contains(got, findingText(a.judgement.result)) {
			t.Errorf("%g wide: it says %q", row.width, got)
		}
	}
}

// What was just done has room to be read, and takes no more than it needs.
func TestNoticeHasRoom(t *testing.T) {
	a := start(t)
	a.app.Settings().SetTheme(a.look)
	a.workOn(demo(t, 0), "")
	a.status.object.Resize(fyne.NewSize(1480, 30))
	for _, row := range []struct {
		name, text string
		verdicts   bool
	}{
		{"short", "Mended: set the lead to 12 in.", true},
		{"long", "Mended: connect the lines to neutral and that through a gap to earth. " + takesBack, false},
	} {
		a.note(row.text)
		need := min(widget.NewLabel(row.text).MinSize().Width, noticeWanted)
		if got := a.status.doing.Size().Width; got < need {
			t.Errorf("%s: what was done has %g px of %g", row.name, got, need)
		}
		if got := a.status.verdicts.Visible(); got != row.verdicts {
			t.Errorf("%s: the verdicts show: %t", row.name, got)
		}
	}
	change(t, a, "Mains")
	if !a.status.verdicts.Visible() {
		t.Error("the verdicts do not come back")
	}
}

// What was done is read to its end, whatever room the rest leaves by chance: it
// takes the place of what comes after it and is not shortened for it.
func TestNoticeIsReadToItsEnd(t *testing.T) {
	a := start(t)
	a.app.Settings().SetTheme(a.look)
	a.workOn(demo(t, 0), "")
	text := "Mended: place Class II on Sub-board. " + takesBack
	a.note(text)
	for width := float32(1100); width < 1400; width++ {
		a.status.object.Resize(fyne.NewSize(width, 30))
		if got := wordsOf(a.status.doing); !strings.Contains(got, takesBack) {
			t.Fatalf("%g wide: it says %q", width, got)
		}
	}
}

func TestCountOpensTheFindings(t *testing.T) {
	a := start(t)
	a.workOn(demo(t, 0), "")
	run(t, a, "findings")
	for _, one := range all[*clickable](a.status.object) {
		test.Tap(one)
	}
	if !a.regions.open || a.regions.drawer.Shown() != viewFindings {
		t.Error("a click on the number of findings does not open them")
	}
}
