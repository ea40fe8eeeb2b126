package drawer

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/compare"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/unit"
)

// CompareState is what the plans are compared for.
type CompareState struct {
	Table      *compare.Table // a new one where anything in it is another; nil where nothing is known
	Plan       diagram.ID     // that the sheet shows
	Convention unit.Convention
	Palette    draw.Palette
	Doing      string // what is still being solved; empty where nothing is
	Trouble    string // why a plan is not solved; empty where none is
}

// CompareHands are what the comparison asks for. None may be nil.
type CompareHands struct {
	GoTo     func(part diagram.ID)
	ShowPlan func(plan diagram.ID) // on the sheet
	Seen     func()                // the view has come into view
}

// Compare is the plans side by side: above them which boards and loads are listed, at the
// head of each column the totals of its plan. Use NewCompare.
type Compare struct {
	hands  CompareHands
	state  CompareState
	view   compare.View
	kept   []compare.Row
	at     int        // line of the cursor; -1 where there is none
	picked diagram.ID // board or load with the cursor

	object *shownView
	bar    *compareBar
	heads  *fyne.Container
	sides  *fyne.Container // heads above the list
	list   *list
	none   *widget.Label
	plans  int // for which the rows are made
}

// NewCompare returns an empty comparison.
func NewCompare(hands CompareHands) *Compare {
	c := &Compare{hands: hands, at: -1, heads: container.New(planColumns{}), none: widget.NewLabel(""), sides: container.NewStack()}
	c.view.Sort = compare.ByFlow
	c.none.Alignment, c.none.Wrapping = fyne.TextAlignCenter, fyne.TextWrapWord
	c.bar = newCompareBar(c)
	c.makeList()
	body := container.New(flow{}, append([]fyne.CanvasObject{container.NewStack(look.NewGround(look.ColorCard), container.NewHScroll(c.sides))}, c.bar.objects()...)...)
	c.object = newShownView(body, func() { c.hands.Seen() })
	c.relist()
	return c
}

// Object returns what to place in the window.
func (c *Compare) Object() fyne.CanvasObject { return c.object }

// makeList makes the list anew, for as many plans as there are: its rows have a column for each.
func (c *Compare) makeList() {
	c.plans, c.kept = c.planCount(), nil // what was listed has other columns
	focused := c.list != nil && c.list.focused
	c.list = newList(func() int { return len(c.kept) }, func() fyne.CanvasObject { return newSideRow(c.plans) }, c.update)
	c.list.OnSelected = c.click
	c.list.step, c.list.enter, c.list.fold = c.step, c.goThere, c.showPlanBeside
	c.sides.Objects = []fyne.CanvasObject{container.NewBorder(c.heads, nil, nil, nil, container.NewStack(c.list, c.none))}
	c.sides.Refresh()
	if focused {
		c.list.takeFocus()
	}
}

func (c *Compare) planCount() int {
	if c.state.Table == nil {
		return 0
	}
	return len(c.state.Table.Plans)
}

// Show brings the comparison up to date. What has the cursor keeps it while it is listed.
func (c *Compare) Show(s CompareState) {
	if s == c.state {
		return
	}
	c.state = s
	if c.planCount() != c.plans {
		c.makeList()
	}
	c.relist()
}

// relist lists the rows that the view keeps.
func (c *Compare) relist() {
	c.view.By, c.kept, c.at = c.shownPlan(), nil, -1
	if c.state.Table != nil {
		c.kept = c.state.Table.View(c.view)
	}
	for i, row := range c.kept {
		if row.Part.ID == c.picked {
			c.at = i
		}
	}
	c.showHeads()
	c.bar.show(c)
	c.none.SetText(c.noneText())
	setVisible(c.none, len(c.kept) == 0)
	c.list.Refresh()
}

// shownPlan returns the column of the plan that the sheet shows.
func (c *Compare) shownPlan() int {
	if c.state.Table != nil {
		for i, plan := range c.state.Table.Plans {
			if plan.ID == c.state.Plan {
				return i
			}
		}
	}
	return 0
}

func (c *Compare) noneText() string {
	switch t := c.state.Table; {
	case t == nil || len(t.Rows) == 0 && c.state.Doing != "":
		return "Not judged yet."
	case len(t.Rows) == 0:
		return "There is nothing to compare: no board and no load."
	}
	return "None of the boards and loads is listed."
}

// showHeads writes the totals of each plan.
func (c *Compare) showHeads() {
	c.heads.Objects = []fyne.CanvasObject{newHeadNote(c.state)}
	if t := c.state.Table; t != nil {
		for _, plan := range t.Plans {
			c.heads.Add(newPlanHead(c, plan))
		}
	}
	c.heads.Refresh()
}

// update writes a line of the list.
func (c *Compare) update(i widget.ListItemID, o fyne.CanvasObject) {
	if i < len(c.kept) {
		r := o.(*sideRow)
		r.show(c.kept[i], c.state)
		r.mark(i == c.at, c.list.focused)
	}
}

// click goes to the board or load that was clicked.
func (c *Compare) click(i widget.ListItemID) {
	c.list.UnselectAll() // the same line may be clicked again
	if i < len(c.kept) {
		c.moveTo(i)
		c.goThere()
	}
}

func (c *Compare) goThere() {
	if c.at >= 0 {
		c.hands.GoTo(c.picked)
	}
}

// step moves the cursor by so many lines.
func (c *Compare) step(by int) {
	if len(c.kept) > 0 {
		c.moveTo(min(max(c.at+by, 0), len(c.kept)-1))
	}
}

func (c *Compare) moveTo(i int) {
	c.at, c.picked = i, c.kept[i].Part.ID
	c.list.ScrollTo(i)
	c.list.Refresh()
}

// showPlanBeside shows the plan to the left of the one that is shown, or to its right.
func (c *Compare) showPlanBeside(left bool) {
	next := c.shownPlan() + 1
	if left {
		next -= 2
	}
	if next >= 0 && next < c.planCount() {
		c.hands.ShowPlan(c.state.Table.Plans[next].ID)
	}
}

// showAll takes every filter off.
func (c *Compare) showAll() {
	c.view = compare.View{Sort: c.view.Sort}
	c.relist()
}

// tally tells how much of it is listed, and by which basis.
func (c *Compare) tally() string {
	if c.state.Table == nil {
		return ""
	}
	words := []string{"by the " + string(c.state.Table.Basis)}
	if all := len(c.state.Table.Rows); all > 0 {
		words = append([]string{toldOf(len(c.kept), all)}, words...)
	}
	if c.state.Doing != "" {
		words = append(words, c.state.Doing)
	}
	return strings.Join(words, " · ")
}
