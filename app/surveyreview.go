package app

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/survey"
)

// reviewing is a dialog that lists what a survey changes, to be ticked, and what
// could not be read of it.
type reviewing struct {
	question *question
	review   survey.Review
	take     []bool // by change
	rows     []reviewRow
	list     *reviewList
	count    *widget.Label
}

// reviewRow is a line of the list: a change, a heading or something that could
// not be read.
type reviewRow struct {
	text    string
	change  int // its number, or none
	heading bool
}

// none stands for no change.
const none = -1

// reviewWidth is how many characters a line of the list has at most.
const reviewWidth = 104

// showReview shows what a table says. All changes are ticked at first.
func (a *App) showReview(name string, review survey.Review) {
	r := &reviewing{question: &question{app: a}, review: review, take: make([]bool, len(review.Changes)), count: widget.NewLabel("")}
	for i, c := range review.Changes {
		r.take[i] = true
		r.rows = append(r.rows, reviewRow{text: changeText(c), change: i})
	}
	if len(review.Problems) > 0 {
		r.rows = append(r.rows, reviewRow{text: "Not read", change: none, heading: true})
	}
	for _, p := range review.Problems {
		r.rows = append(r.rows, reviewRow{text: wrap(sentence(p.String()), reviewWidth), change: none})
	}
	r.list = newReviewList(r)
	replies := []reply{closing()}
	if len(review.Changes) > 0 {
		replies = []reply{{"Cancel", stayReply, nil}, {"Take what is ticked", mainReply, r.apply}}
	}
	r.question.show("Survey", container.NewBorder(r.head(name), nil, nil, nil, r.list), fyne.NewSize(820, 560), replies...)
	r.tell()
}

// changeText is a change as the list shows it.
func changeText(c survey.Change) string {
	text := wrap(strings.Join(strings.Fields(c.String()), " "), reviewWidth)
	if c.Note != "" {
		text += "\n" + wrap(c.Note, reviewWidth)
	}
	return text
}

// head says what was read, and ticks all or nothing.
func (r *reviewing) head(name string) fyne.CanvasObject {
	about := fmt.Sprintf("%s: %s, %s, %s.", name, countOf(r.review.Rows, "row"), countOf(len(r.review.Changes), "change"),
		countOf(len(r.review.Problems), "thing")+" not read")
	box := container.NewVBox(widget.NewLabel(wrap(strings.Join(append([]string{about}, r.review.Notes...), "\n"), reviewWidth)))
	if len(r.take) > 0 {
		all := newButton("Tick all", r.question, func() { r.tick(true) })
		nothing := newButton("Tick none", r.question, func() { r.tick(false) })
		box.Add(container.NewBorder(nil, nil, r.count, container.NewHBox(all, nothing)))
	}
	return box
}

func countOf(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func (r *reviewing) tick(all bool) {
	for i := range r.take {
		r.take[i] = all
	}
	r.list.Refresh()
	r.tell()
}

// tell says how many changes are ticked.
func (r *reviewing) tell() {
	ticked := 0
	for _, taken := range r.take {
		if taken {
			ticked++
		}
	}
	r.count.SetText(fmt.Sprintf("%d of %d ticked", ticked, len(r.take)))
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
	if len(chosen.Changes) == 0 {
		a.note("Nothing was taken from the survey")
		return
	}
	if err := a.editor.Change("take survey", chosen.Apply); err != nil {
		a.showError("Survey not taken", err)
		return
	}
	a.refresh()
	a.note(fmt.Sprintf("Taken from the survey: %s", countOf(len(chosen.Changes), "change")))
}

// reviewList is the list of a survey's changes, in a question.
type reviewList struct {
	widget.List
	reviewing *reviewing
}

func newReviewList(r *reviewing) *reviewList {
	l := &reviewList{reviewing: r}
	l.Length = func() int { return len(r.rows) }
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
	for i, row := range r.rows {
		lines := 1 + strings.Count(row.text, "\n")
		l.SetItemHeight(i, float32(lines)*line+2*theme.InnerPadding())
	}
	return l
}

// toggle ticks a change, or takes the tick away.
func (l *reviewList) toggle(id widget.ListItemID) {
	if at := l.reviewing.rows[id].change; at != none {
		l.reviewing.take[at] = !l.reviewing.take[at]
		l.RefreshItem(id)
		l.reviewing.tell()
	}
}

// show fills a line of the list. The toolkit uses the same objects for others.
func (l *reviewList) show(id widget.ListItemID, item fyne.CanvasObject) {
	row := l.reviewing.rows[id]
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
	label.TextStyle.Bold = row.heading
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
