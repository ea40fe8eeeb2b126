package details

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
)

// workingView shows how a figure of the selection came about: a line for each
// figure of the topic in view, and the steps of the one that is picked. Where
// there are several topics, buttons above say which is in view.
type workingView struct {
	panel     *Panel
	object    *fyne.Container
	head      *fyne.Container // stays while the steps are scrolled
	steps     *fyne.Container
	scroll    *container.Scroll
	shown     key
	selection selection
	now       explanation
	topic     topic  // that the person picked; the first counts where it is not there
	picked    string // key of the figure that the person picked; empty for the first
}

func newWorkingView(p *Panel) *workingView {
	w := &workingView{panel: p, head: container.NewVBox(), steps: container.NewVBox()}
	w.scroll = padded(p.on, w.steps)
	w.object = container.NewBorder(p.on(margined(w.head)), nil, nil, nil, w.scroll)
	return w
}

// forget makes the next show begin anew.
func (w *workingView) forget() { w.shown = key{} }

// show explains what is selected and reports whether it has a working, now or
// once more is known.
func (w *workingView) show(doc *diagram.Document, state State) bool {
	s := selection{doc, state, BusOf(doc, state.Selected)}
	now := s.key()
	if now == w.shown && now != (key{}) {
		return true
	}
	if s.part != w.selection.part {
		w.picked = ""
	}
	w.selection = s
	if !w.write() {
		w.forget()
		return w.reserve()
	}
	w.shown = now
	return true
}

// reserve keeps the room of a working that there will be once the sheet says
// more, lest the form change its height under the pointer. It reports false for
// what never has one.
func (w *workingView) reserve() bool {
	part, ok := w.selection.doc.Part(w.selection.part)
	mayHave := ok && len(part.Kind.Ports()) > 0 && (!part.Kind.IsSource() || w.selection.state.ExplainFault != nil)
	if !mayHave || w.selection.state.elsewhere() {
		return false
	}
	w.head.Objects = []fyne.CanvasObject{subheading("Working")}
	w.steps.Objects = []fyne.CanvasObject{look.NewFaintParagraph("No voltage or current is known here yet.")}
	w.head.Refresh()
	w.steps.Refresh()
	w.scroll.Refresh()
	return true
}

// write explains the topic in view anew, and reports whether there is one.
func (w *workingView) write() bool {
	topics := w.selection.topics()
	if len(topics) == 0 {
		return false
	}
	at := max(slices.Index(topics, w.topic), 0)
	found, ok := w.selection.explain(topics[at])
	if !ok {
		return false
	}
	w.now = found
	w.head.Objects = []fyne.CanvasObject{subheading("Working")}
	if len(topics) > 1 {
		w.head.Add(w.topicButtons(topics, topics[at]))
	}
	w.head.Refresh()
	w.list()
	return true
}

func (w *workingView) topicButtons(topics []topic, in topic) fyne.CanvasObject {
	row := container.NewGridWithColumns(len(topics))
	for _, t := range topics {
		button := w.panel.button(string(t), nil, func() {
			w.topic, w.picked = t, ""
			w.write()
			w.scroll.ScrollToTop()
		})
		button.Importance = importance(t == in)
		row.Add(button)
	}
	return row
}

// importance marks a button of several that is in force.
func importance(in bool) widget.Importance {
	if in {
		return widget.MediumImportance
	}
	return widget.LowImportance
}

// list writes the figures, then the steps of the picked one.
func (w *workingView) list() {
	lines := []fyne.CanvasObject{look.NewFaintParagraph(w.now.about)}
	at := max(slices.IndexFunc(w.now.figures, func(f figure) bool { return f.key == w.picked }), 0)
	for i, f := range w.now.figures {
		if f.line != "" {
			lines = append(lines, w.figureLine(f, i == at))
		}
	}
	picked := w.now.figures[at]
	lines = append(lines, paragraphOf(picked.why))
	for _, step := range picked.working {
		lines = append(lines, look.Step(step, w.selection.state.Convention))
	}
	w.steps.Objects = lines
	w.steps.Refresh()
	w.scroll.Refresh() // of a shorter working it may be scrolled beyond the end
}

func (w *workingView) figureLine(f figure, picked bool) fyne.CanvasObject {
	line := w.panel.button(f.line, nil, func() {
		w.picked = f.key
		w.list()
	})
	line.Alignment = widget.ButtonAlignLeading
	line.Importance = importance(picked)
	return line
}

// BusOf returns the bus whose working the panel shows for a selection: the
// selected part, or the part that the selected protector is on, or nothing.
func BusOf(doc *diagram.Document, selected []diagram.ID) diagram.ID {
	if len(selected) != 1 {
		return ""
	}
	if p, ok := doc.Protector(selected[0]); ok {
		return p.Bus
	}
	return selected[0]
}

func paragraphOf(s string) fyne.CanvasObject {
	label := widget.NewLabel(s)
	label.Wrapping = fyne.TextWrapWord
	return label
}

// explanation is how the figures of one topic came about.
type explanation struct {
	about   string // of what they are, and by what
	figures []figure
}

// figure is one of them. The first is in view until another is picked.
type figure struct {
	key     string // by which it is known again in another result
	line    string // to pick it by; empty where there is one alone
	why     string
	working analysis.Working
}
