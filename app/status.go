package app

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/drawer"
	"clampline/app/look"
	"clampline/diagram/unit"
)

// shortCaution always stands in the window; the whole of it is in Help.
const shortCaution = "Planning estimate. Local codes and licensed practice decide."

// status is the line at the foot of the window.
type status struct {
	object             fyne.CanvasObject
	line               *fyne.Container
	doing              *widget.Label
	findings, verdicts *look.Faint
	engine, saved      *look.Faint
	said               string           // of what was just done; empty where nothing is
	notice             float32          // width of that, px
	busy               bool             // the engine works
	counted            *analysis.Result // by the texts
}

// newStatus returns an empty line. open is called where the number of findings
// is clicked.
func newStatus(open func()) *status {
	s := &status{
		doing: widget.NewLabel(""), findings: look.NewFaint(""), verdicts: look.NewFaint(""), engine: look.NewFaint(""), saved: look.NewFaint(""),
	}
	s.doing.Truncation = fyne.TextTruncateEllipsis
	s.line = container.New(statusLayout{&s.notice, &s.busy}, s.doing, newClickable(s.findings, open), s.verdicts, s.engine, s.saved, look.NewFaint(shortCaution))
	s.object = container.NewStack(look.NewGround(look.ColorBand), container.New(layout.NewCustomPaddedLayout(0, 0, 6, 6), s.line))
	return s
}

func (s *status) show(a *App) {
	notice := a.noticed()
	setText(s.doing, cmp.Or(notice, a.editor.Status()))
	if notice != s.said {
		s.said, s.notice = notice, widthOf(notice)
		s.line.Refresh()
	}
	if busy := a.judge.isWorking() || a.sure.seeking != nil; busy != s.busy {
		s.busy = busy
		s.line.Refresh()
	}
	s.set(s.engine, a.engineText())
	s.set(s.saved, a.savedText())
}

// widthOf is how wide a label is that shows all of a text, px; nothing has no
// width. The toolkit shortens a text that has just the room it asks for.
func widthOf(text string) float32 {
	if text == "" {
		return 0
	}
	return widget.NewLabel(text).MinSize().Width + 1
}

// count counts what the result found. It is called at each move of the pointer
// and counts where the result is another one.
func (s *status) count(result *analysis.Result) {
	if result == s.counted {
		return
	}
	s.counted = result
	s.set(s.findings, findingText(result))
	s.set(s.verdicts, verdictText(result))
}

// set writes a text and makes room for it.
func (s *status) set(f *look.Faint, text string) {
	if f.Text() != text {
		f.SetText(text)
		s.line.Refresh()
	}
}

// notice is what was done, said until the next thing is.
type notice struct {
	text      string
	at        state
	selection uint64
}

// note says in the status line what was done.
func (a *App) note(text string) {
	a.notice = notice{unit.Visible(text), a.state(), a.editor.SelectionVersion()}
	a.refresh()
}

// noticed returns what was last done, or nothing where the sheet or the
// selection is another by now.
func (a *App) noticed() string {
	if a.notice.at != a.state() || a.notice.selection != a.editor.SelectionVersion() {
		return ""
	}
	return a.notice.text
}

func (a *App) savedText() string {
	switch {
	case !a.editor.IsSaved() && a.copy.failure != "":
		return "not saved, and no recovery copy"
	case !a.editor.IsSaved():
		return "not saved"
	case a.held.reading:
		return "open for reading"
	case a.path == "":
		return "not saved yet"
	}
	return "saved"
}

// verdictText is how many buses and loads there are, and how many of them have
// each verdict, leaving out those that none has.
func verdictText(result *analysis.Result) string {
	if result == nil || len(result.Buses) == 0 {
		return ""
	}
	counts := result.Count()
	var words []string
	for _, v := range analysis.Verdicts() {
		if n := counts[v]; n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n, strings.ToLower(v.String())))
		}
	}
	return unit.CountOf(len(result.Buses), "bus or load|buses and loads") + ": " + strings.Join(words, " · ")
}

// findingText is how many findings there are of each severity, leaving out
// those of which there is none.
func findingText(result *analysis.Result) string {
	if result == nil || len(result.Buses) == 0 && len(result.Findings) == 0 {
		return ""
	}
	text := cmp.Or(drawer.Count(result.Findings).String(), "no findings")
	if aside := len(result.Aside); aside > 0 {
		text += fmt.Sprintf(" · %d set aside", aside)
	}
	return text
}

func (a *App) engineText() string {
	switch {
	case a.sure.seeking != nil:
		return a.sureText()
	case a.judge.isWorking() && a.basis == analysis.Transient:
		if r := a.judgement.result; r != nil && r.Due > 0 {
			return fmt.Sprintf("%d of %d surges to come …", r.Due, r.Of)
		}
		return "solving the transient …"
	case a.judge.isWorking():
		return "working …"
	case a.judgement.gaveUp:
		return fmt.Sprintf("given up after %.0f s, see the findings", longest.Seconds())
	case a.judgement.result == nil:
		return ""
	case a.judgement.unsolved != nil:
		return "transient not solved, see the findings"
	}
	took := "under 1 ms"
	if ms := a.judgement.took.Round(time.Millisecond).Milliseconds(); ms > 0 {
		took = fmt.Sprintf("%d ms", ms)
	}
	if a.judgement.result.Basis == analysis.Transient {
		return "transient solved in " + took
	}
	return "solved in " + took
}
