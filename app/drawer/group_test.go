package drawer

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/diagram"
)

func TestGroups(t *testing.T) {
	for _, row := range []struct {
		grouping Grouping
		want     []string
	}{
		{Ungrouped, []string{mainLine, leads1, leads2, pumpLine, titleLine}},
		{BySubject, []string{"[Cover 1]", mainLine, "[Leads 2]", leads1, leads2, "[Supply 1]", pumpLine, "[Nameplate 1]", titleLine}},
		{ByPart, []string{"[Main 2]", mainLine, leads1, "[Pump 2]", leads2, pumpLine, "[Sheet 1]", titleLine}},
		{ByPlan, []string{"[Protectors of this plan 3]", mainLine, leads1, leads2, "[The building, whatever the plan 2]", pumpLine, titleLine}},
	} {
		s := newShower(t, Settings{})
		s.bar.group.SetSelected(string(row.grouping))
		s.wants(string(row.grouping), row.want...)
		if s.at != slices.Index(row.want, mainLine) {
			t.Errorf("%s: the cursor is at %d, want it on the first finding", row.grouping, s.at)
		}
	}
}

// Under its subject a finding need not say it again.
func TestSubjectStandsOnce(t *testing.T) {
	s := newShower(t, Settings{Grouping: BySubject})
	if got := s.row(1).about.Text(); got != "critical" {
		t.Errorf("got %q at the right of the first finding", got)
	}
	if got := s.row(3).about.Text(); got != "" {
		t.Errorf("got %q at the right of the second", got)
	}
}

func TestFolding(t *testing.T) {
	s := newShower(t, Settings{Grouping: BySubject})
	folded := []string{"[Cover 1]", mainLine, "[Leads 2]", "[Supply 1]", pumpLine, "[Nameplate 1]", titleLine}
	s.list.Select(2)
	s.wants("a click on the heading", folded...)
	if s.bar.told.Visible() || len(s.asked.went) != 0 {
		t.Errorf("told: %t, went to %q; what is folded is not left out", s.bar.told.Visible(), s.asked.went)
	}
	s.find(sample())
	s.wants("another result", folded...)
	s.list.Select(2)
	open := []string{"[Cover 1]", mainLine, "[Leads 2]", leads1, leads2, "[Supply 1]", pumpLine, "[Nameplate 1]", titleLine}
	s.wants("another click", open...)
	s.key(fyne.KeyDown, fyne.KeyDown, fyne.KeyLeft)
	s.wants("left, on a finding", folded...)
	if s.at != 2 {
		t.Errorf("the cursor is at %d, want it on the heading", s.at)
	}
	s.key(fyne.KeyLeft)
	s.wants("left again", folded...)
	s.key(fyne.KeyRight)
	s.wants("right", open...)
	s.key(fyne.KeyReturn)
	s.wants("enter", folded...)
}

// A folded finding that has the cursor gives it to its heading, and goes on to
// be shown whole.
func TestCursorInAFoldedGroup(t *testing.T) {
	s := newShower(t, Settings{Grouping: BySubject})
	s.list.Select(4)
	s.folded["leads"] = true
	s.relist()
	if s.picked.What != leads2 || s.lines[s.at].group != "leads" || !s.lines[s.at].isHeading() {
		t.Errorf("%q is shown, and the cursor is on %+v", s.picked.What, s.lines[s.at])
	}
}

func TestSettings(t *testing.T) {
	s := newShower(t, Settings{})
	s.bar.group.SetSelected(string(ByPart))
	s.toggle(int(analysis.Remark))
	last := s.asked.settings[len(s.asked.settings)-1]
	if want := (Settings{Hide: [severities]bool{analysis.Remark: true}, Grouping: ByPart}); last != want || len(s.asked.settings) != 2 {
		t.Errorf("remembered %v, want %v last", s.asked.settings, want)
	}
	next := newShower(t, last)
	next.wants("the next start", "[Main 2]", mainLine, leads1, "[Pump 2]", leads2, pumpLine)
	if got := next.bar.group.Selected; got != string(ByPart) {
		t.Errorf("the next start: %q is picked", got)
	}
	newShower(t, Settings{Grouping: "by colour"}).wants("a setting that is none", mainLine, leads1, leads2, pumpLine, titleLine)
}

func TestFindingsOfFeeders(t *testing.T) {
	doc := house(t)
	finding := analysis.Finding{Records: []diagram.ID{"feeder-1"}}
	if got, want := analysis.GroupOf(finding, ByPart, doc), doc.NameOf("feeder-1"); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
