package app

import (
	"fmt"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/survey"
	"clampline/diagram/unit"
)

// reviewing is a dialog that lists what could not be read of a survey, and what
// it changes, to be ticked.
type reviewing struct {
	question *question
	name     string // of the file
	review   survey.Review
	take     []bool // by change
	changes  *reviewList
	unread   *reviewList
	count    *widget.Label
}

// reviewRow is a line of a list: a change, or something that could not be read.
type reviewRow struct {
	text   string
	change int // its number, or none
}

// none stands for no change.
const none = -1

const (
	reviewWidth  = 104 // how many characters a line of a list has at most
	unreadHeight = 150 // of the list of what could not be read, where changes stand below it
)

// showReview shows what a table says. All changes are ticked at first, but for those
// of another building.
func (a *App) showReview(name string, review survey.Review) {
	r := &reviewing{question: &question{app: a}, name: name, review: review, take: make([]bool, len(review.Changes)), count: widget.NewLabel("")}
	var changes, unread []reviewRow
	for i, c := range review.Changes {
		r.take[i] = review.Foreign == ""
		changes = append(changes, reviewRow{changeText(c), i})
	}
	for _, p := range review.Problems {
		unread = append(unread, reviewRow{wrap(unit.SentenceCase(p.String()), reviewWidth), none})
	}
	r.changes, r.unread = newReviewList(r, changes), newReviewList(r, unread)
	replies := []reply{closing()}
	if len(changes) > 0 {
		replies = []reply{{"Cancel", stayReply, nil}, {"Import what is ticked", mainReply, r.apply}}
	}
	r.question.show("Import survey", r.body(), fyne.NewSize(820, 600), replies...)
	r.guard()
	r.tell()
}

// changeText is a change as the list shows it.
func changeText(c survey.Change) string {
	text := wrap(strings.Join(strings.Fields(c.String()), " "), reviewWidth)
	if c.Record == "" {
		text = unit.SentenceCase(text)
	}
	if c.Note != "" {
		text += "\n" + wrap(c.Note, reviewWidth)
	}
	return text
}

// body lays out what was read: what could not be, which nobody is to overlook,
// above the changes.
func (r *reviewing) body() fyne.CanvasObject {
	top := container.NewVBox(r.about())
	if len(r.review.Problems) > 0 {
		top.Add(r.unreadHead())
	}
	if len(r.review.Changes) == 0 {
		return container.NewBorder(top, nil, nil, nil, r.unread)
	}
	if len(r.review.Problems) > 0 {
		room := canvas.NewRectangle(color.Transparent)
		room.SetMinSize(fyne.NewSize(0, min(unreadHeight, r.unread.height)))
		top.Add(container.NewStack(room, r.unread))
		top.Add(widget.NewSeparator())
	}
	top.Add(r.ticks())
	return container.NewBorder(top, nil, nil, nil, r.changes)
}

func (r *reviewing) about() fyne.CanvasObject {
	about := fmt.Sprintf("%s: %s, %s, %s.", r.name, unit.CountOf(r.review.Rows, "row"), unit.CountOf(len(r.review.Changes), "change"), r.notRead())
	return widget.NewLabel(wrap(strings.Join(append([]string{about}, r.review.Notes...), "\n"), reviewWidth))
}

func (r *reviewing) notRead() string {
	return unit.CountOf(len(r.review.Problems), "thing") + " not read"
}

// unreadHead is the heading of what could not be read, with a way to take it
// along.
func (r *reviewing) unreadHead() fyne.CanvasObject {
	var copied *button
	copied = newButton("Copy as text", r.question, func() {
		r.question.app.app.Clipboard().SetContent(r.unreadText())
		copied.SetText("Copied")
	})
	head := widget.NewLabelWithStyle(fmt.Sprintf("Not read: %d", len(r.review.Problems)), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	return container.NewBorder(nil, nil, head, copied)
}

// unreadText is what could not be read, a line to each.
func (r *reviewing) unreadText() string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s: %s\n", r.name, r.notRead())
	for _, p := range r.review.Problems {
		fmt.Fprintln(&out, unit.SentenceCase(p.String()))
	}
	return out.String()
}

// ticks says how many changes are ticked, and ticks all or none.
func (r *reviewing) ticks() fyne.CanvasObject {
	all := newButton("Tick all", r.question, func() { r.tick(true) })
	nothing := newButton("Tick none", r.question, func() { r.tick(false) })
	return container.NewBorder(nil, nil, r.count, container.NewHBox(all, nothing))
}

// guard has neither a click nor Enter take nothing.
func (r *reviewing) guard() {
	enter := r.question.enter
	tapped := enter.OnTapped
	enter.OnTapped = func() {
		if !enter.Disabled() {
			tapped()
		}
	}
}

func (r *reviewing) tick(all bool) {
	for i := range r.take {
		r.take[i] = all
	}
	r.changes.Refresh()
	r.tell()
}

// tell says how many changes are ticked. Where there is none there is nothing to
// take.
func (r *reviewing) tell() {
	if len(r.take) == 0 {
		return
	}
	ticked := 0
	for _, taken := range r.take {
		if taken {
			ticked++
		}
	}
	r.count.SetText(fmt.Sprintf("%d of %d ticked", ticked, len(r.take)))
	if ticked > 0 {
		r.question.enter.Enable()
	} else {
		r.question.enter.Disable()
	}
}

// apply makes the changes that are ticked, as one entry of the history.
func (r *reviewing) apply() {
	a := r.question.app
	chosen := survey.Review{}
	for i, c := range r.review.Changes {
		if r.take[i] {
			chosen.Changes = append(chosen.Changes, c)
		}
	}
	if err := a.editor.Change("import survey", chosen.Apply); err != nil {
		a.showError("Survey not imported", err)
		return
	}
	a.refresh()
	done := unit.CountOf(len(chosen.Changes), "change") + " imported"
	if len(r.review.Problems) > 0 {
		done += ", " + r.notRead()
	}
	a.note(done)
}

// reviewList is a list of what a survey says, in a question.
type reviewList struct {
	widget.List
	reviewing *reviewing
	rows      []reviewRow
	height    float32 // of all rows
}

func newReviewList(r *reviewing, rows []reviewRow) *reviewList {
	l := &reviewList{reviewing: r, rows: rows}
	l.Length = func() int { return len(rows) }
	l.CreateItem = func() fyne.CanvasObject {
		return container.NewBorder(nil, nil, container.NewVBox(newTick(r.question)), nil, widget.NewLabel(""))
	}
	l.UpdateItem = l.show
	l.OnSelected = func(id widget.ListItemID) {
		l.Unselect(id)
		l.toggle(id)
	}
	l.ExtendBaseWidget(l)
	line := fyne.MeasureText("M", theme.TextSize(), fyne.TextStyle{}).Height
	for i, row := range rows {
		lines := 1 + strings.Count(row.text, "\n")
		height := float32(lines)*line + 2*theme.InnerPadding()
		l.SetItemHeight(i, height)
		l.height += height + theme.Padding()
	}
	return l
}

// toggle ticks a change, or takes the tick away.
func (l *reviewList) toggle(id widget.ListItemID) {
	if at := l.rows[id].change; at != none {
		l.reviewing.take[at] = !l.reviewing.take[at]
		l.RefreshItem(id)
		l.reviewing.tell()
	}
}

// show fills a line of the list. The toolkit uses the same objects for others.
func (l *reviewList) show(id widget.ListItemID, item fyne.CanvasObject) {
	row := l.rows[id]
	parts := item.(*fyne.Container).Objects
	label, box := parts[0].(*widget.Label), parts[1].(*fyne.Container).Objects[0].(*tick)
	box.OnChanged = nil
	box.Hidden = row.change == none
	if row.change != none {
		box.SetChecked(l.reviewing.take[row.change])
		box.OnChanged = func(on bool) {
			l.reviewing.take[row.change] = on
			l.reviewing.tell()
		}
	}
	label.SetText(row.text)
	item.Refresh()
}

// TypedKey answers the question, or moves in the list.
func (l *reviewList) TypedKey(ev *fyne.KeyEvent) {
	if !l.reviewing.question.key(ev) {
		l.List.TypedKey(ev)
	}
}

// tick is a check box in a question.
type tick struct {
	widget.Check
	question *question
}

func newTick(q *question) *tick {
	t := &tick{question: q}
	t.ExtendBaseWidget(t)
	return t
}

// TypedKey answers the question.
func (t *tick) TypedKey(ev *fyne.KeyEvent) {
	if !t.question.key(ev) {
		t.Check.TypedKey(ev)
	}
}
