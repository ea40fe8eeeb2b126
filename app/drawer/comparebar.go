package drawer

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/compare"
	"clampline/app/look"
	"clampline/diagram/unit"
)

// sortWidth is that of the list of sorts, px.
const sortWidth = 170

// spokenSorts are the sorts as people call them.
var spokenSorts = map[compare.Sort]string{
	compare.ByFlow: "From the supply", compare.ByName: "By name", compare.ByWorst: "Worst first", compare.ByChange: "Most changed first",
}

// compareBar is what says which boards and loads are listed, and in which order.
type compareBar struct {
	changes, critical, open *look.Check
	sort                    *look.Select
	told                    *look.Faint
	all                     *look.Button
	trouble                 *widget.Label
	room                    *fyne.Container // of the trouble
}

func newCompareBar(c *Compare) *compareBar {
	b := &compareBar{told: look.NewFaint(""), trouble: widget.NewLabel("")}
	check := func(text string, of *bool) *look.Check {
		return look.NewCheck(text, func(on bool) {
			if *of != on {
				*of = on
				c.relist()
			}
		})
	}
	b.changes = check("What changes", &c.view.Changes)
	b.critical = check("Critical", &c.view.Critical)
	b.open = check("Still not held", &c.view.Open)
	b.sort = look.NewSelect(nil, func(text string) {
		if picked := compare.Sorts()[max(slices.Index(b.sort.Options, text), 0)]; c.view.Sort != picked {
			c.view.Sort = picked
			c.relist()
		}
	})
	for _, s := range compare.Sorts() {
		b.sort.Options = append(b.sort.Options, spokenSorts[s])
	}
	b.all = look.NewButton("Show all", c.showAll)
	b.trouble.Importance, b.trouble.Truncation = widget.DangerImportance, fyne.TextTruncateEllipsis
	return b
}

// objects returns what stands above the plans, in the order of its going through by key.
func (b *compareBar) objects() []fyne.CanvasObject {
	sort := container.NewGridWrap(fyne.NewSize(sortWidth, b.sort.MinSize().Height), b.sort)
	b.room = container.NewGridWrap(fyne.NewSize(troubleWidth, b.trouble.MinSize().Height), b.trouble)
	return []fyne.CanvasObject{b.changes, b.critical, b.open, sort, b.told, b.all, b.room}
}

// troubleWidth is the room for why a plan is not solved, px.
const troubleWidth = 480

// show brings it up to date with what is listed.
func (b *compareBar) show(c *Compare) {
	for _, one := range []struct {
		check *look.Check
		on    bool
	}{{b.changes, c.view.Changes}, {b.critical, c.view.Critical}, {b.open, c.view.Open}} {
		if one.check.Checked != one.on {
			one.check.Checked = one.on
			one.check.Refresh()
		}
	}
	setSelected(b.sort, spokenSorts[c.view.Sort])
	b.told.SetText(c.tally())
	setVisible(b.all, c.state.Table != nil && len(c.kept) < len(c.state.Table.Rows))
	setText(b.trouble, unit.Words(c.state.Trouble, c.state.Convention))
	setVisible(b.room, c.state.Trouble != "")
}
