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
	"clampline/app/look"
)

// shortCaution always stands in the window; the whole of it is in Help.
const shortCaution = "Planning estimate. Local codes and licensed practice decide."

// status is the line at the foot of the window.
type status struct {
	object                fyne.CanvasObject
	doing                 *widget.Label
	counts, engine, saved *look.Faint
}

func newStatus() *status {
	s := &status{
		doing: widget.NewLabel(""), counts: look.NewFaint(""), engine: look.NewFaint(""), saved: look.NewFaint(""),
	}
	s.doing.Truncation = fyne.TextTruncateEllipsis
	right := container.NewHBox(s.counts, s.engine, s.saved, look.NewFaint(shortCaution))
	s.object = container.NewStack(newGround(look.ColorBand),
		container.New(layout.NewCustomPaddedLayout(0, 0, 6, 6), container.NewBorder(nil, nil, nil, right, s.doing)))
	return s
}

func (s *status) show(a *App) {
	setText(s.doing, cmp.Or(a.noticed(), a.editor.Status()))
	s.engine.SetText(a.engineText())
	s.saved.SetText(a.savedText())
}

// notice is what was done, said until the next thing is.
type notice struct {
	text      string
	at        state
	selection uint64
}

// note says in the status line what was done.
func (a *App) note(text string) {
	a.notice = notice{text, a.state(), a.editor.SelectionVersion()}
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
	case !a.editor.IsSaved():
		return "not saved"
	case a.path == "":
		return "not saved yet"
	}
	return "saved"
}

// countText is how many buses have each verdict, leaving out those that none
// has.
func countText(result *analysis.Result) string {
	if result == nil || len(result.Buses) == 0 {
		return ""
	}
	counts := result.Count()
	words := []string{fmt.Sprintf("%d judged", len(result.Buses))}
	for _, v := range analysis.Verdicts() {
		if n := counts[v]; n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n, strings.ToLower(v.String())))
		}
	}
	return strings.Join(words, " · ")
}

func (a *App) engineText() string {
	switch {
	case a.judge.isWorking() && a.basis == analysis.Transient:
		return "solving the transient …"
	case a.judge.isWorking():
		return "working …"
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
