package app

import (
	"context"
	"fmt"
	"image"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/report"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/draw/raster"
	"clampline/diagram/file"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// handOver is the dialog for all that leaves the program: what, of which plan, on which
// paper, with its pages to look at before.
type handOver struct {
	app      *App
	question *question
	wares    []ware
	plans    []diagram.Plan

	what, plan, paper, format *picker
	landscape, plain          *look.Check
	about, told               *widget.Label
	progress                  *widget.ProgressBar
	stop                      *look.Button
	write, print              *look.Button
	preview                   *canvas.Image
	number                    *widget.Label
	before, after             *look.Button

	work  *int               // names what is solved now; nil where nothing is
	halt  context.CancelFunc // of that
	order *order             // what was solved; nil where nothing is, or it failed
	pages []page.Page
	at    int // the page that is shown
}

// previewSize is the room for a page, px.
var previewSize = fyne.NewSize(520, 470)

// openHandOver opens the dialog.
func (a *App) openHandOver() *handOver {
	a.details.Commit()
	h := &handOver{app: a, wares: wares(), plans: a.editor.Document().Plans()}
	h.question = &question{app: a}
	h.make()
	form := widget.NewForm(
		widget.NewFormItem("What", h.what), widget.NewFormItem("", h.about), widget.NewFormItem("Plan", h.plan),
		widget.NewFormItem("As", h.format), widget.NewFormItem("Paper", h.paper), widget.NewFormItem("", container.NewVBox(h.landscape, h.plain)),
	)
	buttons := container.NewHBox(h.write, h.print)
	left := container.NewVBox(form, h.told, container.NewBorder(nil, nil, nil, h.stop, h.progress), buttons)
	turn := container.NewHBox(layout.NewSpacer(), h.before, h.number, h.after, layout.NewSpacer())
	right := container.NewBorder(nil, turn, nil, nil, container.NewStack(canvas.NewRectangle(theme.Color(theme.ColorNameSeparator)), container.NewPadded(h.preview)))
	h.question.show("Hand over", container.NewBorder(nil, nil, container.New(wide(430), left), nil, right), fyne.NewSize(1010, 600), reply{"Close", stayReply, h.cut})
	h.choose()
	return h
}

// make makes what the dialog is made of.
func (h *handOver) make() {
	a := h.app
	var titles, plans, papers []string
	for _, w := range h.wares {
		titles = append(titles, w.title)
	}
	for _, p := range h.plans {
		plans = append(plans, a.editor.Document().NameOf(p.ID))
	}
	for _, p := range page.Papers() {
		papers = append(papers, p.Name)
	}
	pick := func(options []string, selected string, picked func()) *picker {
		out := newPicker(options, h.question)
		out.Selected = selected
		out.OnChanged = func(string) { picked() }
		return out
	}
	h.what = pick(titles, titles[0], h.choose)
	h.plan = pick(plans, a.editor.Document().NameOf(a.editor.Plan()), h.solve)
	h.paper = pick(papers, page.Usual(a.convention()).Name, h.lay)
	h.format = pick(nil, "", func() {})
	h.landscape, h.plain = look.NewCheck("across (landscape)", func(bool) { h.lay() }), look.NewCheck("plain, without verdicts", func(bool) { h.lay() })
	h.landscape.Checked = true
	h.about, h.told, h.number = widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
	h.about.Wrapping, h.told.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	h.progress = widget.NewProgressBar()
	h.stop = look.NewButton("Stop", func() { h.cut(); h.tell("Stopped. Choose again to go on.") })
	h.write = look.NewButton("Write …", h.ask)
	h.write.Importance = widget.HighImportance
	h.print = look.NewButton("Open to print", h.open)
	h.preview = canvas.NewImageFromImage(image.NewRGBA(image.Rect(0, 0, 1, 1)))
	h.preview.FillMode = canvas.ImageFillContain
	h.preview.SetMinSize(previewSize)
	h.before = look.NewIconButton("", theme.NavigateBackIcon(), func() { h.show(h.at - 1) })
	h.after = look.NewIconButton("", theme.NavigateNextIcon(), func() { h.show(h.at + 1) })
	h.busy(false)
}

// ware returns what is chosen.
func (h *handOver) ware() ware { return h.wares[max(0, slices.Index(h.what.Options, h.what.Selected))] }

// planID returns the plan that is chosen.
func (h *handOver) planID() diagram.ID {
	return h.plans[max(0, slices.Index(h.plan.Options, h.plan.Selected))].ID
}

// choose takes another thing to hand over.
func (h *handOver) choose() {
	w := h.ware()
	h.about.SetText(unit.SentenceCase(w.about) + ".")
	h.format.Options = nil
	for _, f := range w.formats {
		h.format.Options = append(h.format.Options, formatWords(f))
	}
	h.format.SetSelected(h.format.Options[0])
	if w.takes.Before && len(h.plans) > 1 && h.planID() == h.plans[0].ID { // there is no work in what was found
		h.plan.Selected = h.plan.Options[1]
		h.plan.Refresh()
	}
	h.paper.Selected = h.usualPaper(w).Name
	h.paper.Refresh()
	for _, o := range []fyne.CanvasObject{h.landscape, h.plain} {
		setShown(o, w.drawn)
	}
	h.solve()
}

// usualPaper is what most print it on: a drawing on twice the size of a letter.
func (h *handOver) usualPaper(w ware) page.Paper {
	usual := page.Usual(h.app.convention())
	if !w.drawn {
		return usual
	}
	papers := page.Papers() // each size of a letter stands before its double
	return papers[slices.IndexFunc(papers, func(p page.Paper) bool { return p.Name == usual.Name })+1]
}

func setShown(o fyne.CanvasObject, shown bool) {
	if shown {
		o.Show()
	} else {
		o.Hide()
	}
}

// solve finds what is told of the plan, and lays it out.
func (h *handOver) solve() {
	a, w, plan := h.app, h.ware(), h.planID()
	o := &order{Work: report.Work{Document: a.editor.Document().Snapshot(), Convention: a.convention(), Date: h.date(plan)}}
	basis := a.basis
	if j := a.judgement; j.subject == a.subject() && !a.judge.isWorking() && j.result != nil && j.plan == plan && !j.gaveUp && len(a.surge.pick(o.Document)) == 0 {
		o.Result, basis = j.result, j.result.Basis
	}
	h.start(o, func(ctx context.Context, progress func(float64)) error {
		return o.solve(ctx, plan, basis, w.takes, progress)
	})
}

// lay lays out anew what was solved, by the paper that is chosen; what was not is solved.
func (h *handOver) lay() {
	if h.order == nil {
		h.solve()
		return
	}
	o := *h.order
	h.start(&o, func(context.Context, func(float64)) error { return nil })
}

// start solves in the background what is handed over, lays it out, and shows it.
func (h *handOver) start(o *order, solve func(ctx context.Context, progress func(share float64)) error) {
	h.cut()
	o.Paper, _ = page.PaperNamed(h.paper.Selected)
	o.landscape, o.plain = h.landscape.Checked, h.plain.Checked
	ctx, cancel := context.WithCancel(context.Background())
	mine, w := new(int), h.ware()
	h.work, h.halt = mine, cancel
	h.busy(true)
	here := func(f func()) {
		h.app.run.window(func() {
			if h.work == mine {
				f()
			}
		})
	}
	h.app.run.background(func() {
		var pages []page.Page
		err := solve(ctx, func(share float64) { here(func() { h.progress.SetValue(share) }) })
		if err == nil {
			pages, err = w.pages(o)
		}
		here(func() { h.done(o, pages, err) })
	})
}

// done shows what has come out.
func (h *handOver) done(o *order, pages []page.Page, err error) {
	h.halt() // frees what the context holds
	h.work = nil
	switch {
	case err != nil:
		h.tell(unit.SentenceCase(err.Error()) + ".")
	case len(pages) == 0:
		h.order = o
		h.tell("A table: there are no pages to look at.")
	default:
		h.order, h.pages = o, pages
		h.tell("")
	}
	h.busy(false)
	h.show(0)
}

// date returns the day that stands at the head where the sheet names none: that of the
// plan, or today.
func (h *handOver) date(plan diagram.ID) time.Time {
	p, _ := h.app.editor.Document().Plan(plan)
	if day, err := time.Parse(time.DateOnly, p.Date); err == nil {
		return day
	}
	return time.Now()
}

// cut ends what is being solved.
func (h *handOver) cut() {
	if h.work != nil {
		h.halt()
		h.work = nil
	}
	h.order, h.pages = nil, nil
	h.busy(false)
	h.show(0)
}

// busy shows whether something is being solved.
func (h *handOver) busy(on bool) {
	setShown(h.progress, on)
	setShown(h.stop, on)
	if on {
		h.progress.SetValue(0)
		h.told.SetText("Solving …")
	}
	h.offer()
}

// offer lets be pressed what can be.
func (h *handOver) offer() {
	for _, b := range []*look.Button{h.write, h.print} {
		if h.order != nil {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	if h.order != nil && len(h.pages) == 0 {
		h.print.Disable()
	}
}

func (h *handOver) tell(text string) { h.told.SetText(text) }

// show shows a page.
func (h *handOver) show(at int) {
	h.at = min(max(0, at), max(0, len(h.pages)-1))
	setShown(h.preview, len(h.pages) > 0)
	h.number.SetText("")
	for b, on := range map[*look.Button]bool{h.before: h.at > 0, h.after: h.at < len(h.pages)-1} {
		setShown(b, on)
	}
	if len(h.pages) == 0 {
		return
	}
	h.number.SetText(fmt.Sprintf("page %d of %d", h.at+1, len(h.pages)))
	picture, err := h.picture()
	if err != nil {
		h.tell(unit.SentenceCase(err.Error()))
		return
	}
	h.preview.Image = picture
	h.preview.Refresh()
}

// picture paints the page that is shown, as finely as the window can show it.
func (h *handOver) picture() (image.Image, error) {
	of := h.pages[h.at].Picture
	const margin = 12 // of the paper, round what is printed, mm
	room, bounds := h.preview.Size().Max(previewSize), of.Bounds().Grow(margin)
	fine := float64(h.app.window.Canvas().Scale()) * min(float64(room.Width)/bounds.Width(), float64(room.Height)/bounds.Height())
	return raster.Image(of, report.Light(), fine, margin)
}

// formatOf returns the format that is chosen.
func (h *handOver) formatOf() report.Format {
	return h.ware().formats[max(0, slices.Index(h.format.Options, h.format.Selected))]
}

// ask asks for the name of a file and writes it.
func (h *handOver) ask() {
	a, w, f := h.app, h.ware(), h.formatOf()
	failed := w.title + " not written"
	name := a.nameLike(w.name, " "+w.name+", "+fileWords(h.plan.Selected), string(f))
	a.askForName(w.title, failed, name, typesOf(f), func(path string) {
		a.withEnding(path, string(f), func(full string) { h.writeTo(full, failed) })
	})
}

// fileWords returns a name as part of that of a file.
func fileWords(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, name)
}

// writeTo writes what was solved in the format that the ending says.
func (h *handOver) writeTo(path, failed string) {
	w, o := h.ware(), h.order
	if o == nil {
		return
	}
	format, err := w.formatOf(path)
	if err == nil {
		err = file.Export(path, func(to io.Writer) error { return w.write(o, to, format) })
	}
	if err != nil {
		h.app.showError(failed, err)
		return
	}
	h.tell("Written to " + shorten(path) + ".")
	h.app.note(w.title + " written to " + shorten(path))
}

// open writes the pages to a temporary file and has the system open it, which can print.
func (h *handOver) open() {
	const failed = "Not opened"
	folder, err := os.MkdirTemp("", "clampline")
	if err != nil {
		h.app.showError(failed, err)
		return
	}
	path := filepath.Join(folder, h.ware().name+string(report.PDF))
	h.writeTo(path, failed)
	if _, err := os.Stat(path); err != nil {
		return
	}
	if err := h.app.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		h.app.showError(failed, fmt.Errorf("no program of this system opens %s: %w", path, err))
		return
	}
	h.tell("Opened in the program that this system has for PDF; print it there.")
}
