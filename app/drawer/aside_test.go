package drawer

import (
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
)

// What is set aside is listed apart, with who said so and why, and offers to count
// again; what counts offers to be set aside.
func TestSetAsideIsListedApart(t *testing.T) {
	s := newShower(t, Settings{})
	s.ShowFirst()
	if !s.whole.aside.Visible() || s.whole.aside.Text != "Set aside…" || s.bar.aside.Visible() {
		t.Errorf("the button says %q; the check is there: %t", s.whole.aside.Text, s.bar.aside.Visible())
	}
	s.whole.aside.OnTapped()
	findings := sample()
	findings[0].Mend.Choices = func([]library.Entry) []analysis.Choice { return nil }
	by := diagram.Aside{ID: "aside-1", Reason: "the owner takes the risk", By: "A. Planner", Day: "2026-11-29"}
	s.state.Aside = []analysis.SetAside{{Finding: findings[0], By: by}}
	s.find(findings[1:])
	if got := s.listed(); len(got) != 4 || slices.Contains(got, findings[0].What) {
		t.Errorf("what counts: got %q", got)
	}
	if !s.bar.aside.Visible() || s.bar.aside.Text != "Set aside (1)" {
		t.Errorf("the check says %q", s.bar.aside.Text)
	}
	s.bar.aside.SetChecked(true)
	if got := s.listed(); !slices.Equal(got, []string{"Main is not covered, L-G"}) {
		t.Errorf("set aside: got %q", got)
	}
	s.ShowFirst()
	if got := s.reads(); !strings.Contains(got, "Set aside: the owner takes the risk (A. Planner, 2026-11-29)") {
		t.Errorf("the page reads %q", got)
	}
	if s.whole.aside.Text != "Count it again" || s.whole.mend.Visible() {
		t.Errorf("the button says %q; it can be mended: %t", s.whole.aside.Text, s.whole.mend.Visible())
	}
	s.whole.aside.OnTapped()
	if !slices.Equal(s.asked.aside, []string{findings[0].What}) || !slices.Equal(s.asked.again, []string{findings[0].What}) {
		t.Errorf("asked to set aside %q, to count again %q", s.asked.aside, s.asked.again)
	}
	s.state.Aside = nil
	s.find(findings)
	if got := s.listed(); len(got) != len(findings) || s.bar.aside.Visible() {
		t.Errorf("nothing is set aside any more: got %q; the check is there: %t", got, s.bar.aside.Visible())
	}
}
