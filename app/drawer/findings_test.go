package drawer

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
)

var sample = []analysis.Finding{
	{Severity: analysis.Error, What: "Main is not covered", Why: "no protector reaches it.", Remedy: "attach one.", Source: "common practice, no source", Records: []diagram.ID{"panel-1", "load-1"}},
	{Severity: analysis.Warning, What: "Pump is far", Why: "the feeder is long.", Records: []diagram.ID{"load-1"}},
	{Severity: analysis.Remark, What: "The sheet has no title"},
}

func newFindings(t *testing.T, goTo func([]diagram.ID)) *Findings {
	t.Helper()
	test.NewTempApp(t)
	f := NewFindings(goTo)
	w := test.NewWindow(f.Object())
	w.Resize(fyne.NewSize(800, 300))
	return f
}

// row returns the lines of a row, and its icon.
func (f *Findings) row(i int) (what, why string, icon fyne.Resource) {
	o := f.list.CreateItem()
	f.list.UpdateItem(i, o)
	c := o.(*fyne.Container)
	lines := c.Objects[0].(*fyne.Container)
	return lines.Objects[0].(*widget.Label).Text, lines.Objects[1].(*widget.Label).Text, c.Objects[1].(*widget.Icon).Resource
}

func TestRows(t *testing.T) {
	f := newFindings(t, nil)
	f.Show(sample)
	if got := f.list.Length(); got != len(sample) {
		t.Fatalf("got %d rows, want %d", got, len(sample))
	}
	for i, want := range []string{"no protector reaches it.", "the feeder is long.", ""} {
		what, why, _ := f.row(i)
		if what != sample[i].What || why != want {
			t.Errorf("row %d: got %q and %q, want %q and %q", i, what, why, sample[i].What, want)
		}
	}
	var icons []string
	for i := range sample {
		_, _, icon := f.row(i)
		if slices.Contains(icons, icon.Name()) {
			t.Errorf("row %d has the icon of another severity, %q", i, icon.Name())
		}
		icons = append(icons, icon.Name())
	}
}

// The whole of a finding stands beside the list: of the first one until another
// is clicked, and of that one as long as it is listed.
func TestWholeFinding(t *testing.T) {
	f := newFindings(t, func([]diagram.ID) {})
	read := func() []string { return texts(f.whole.Segments) }
	f.Show(sample)
	first := []string{"Main is not covered", "Why: no protector reaches it.", "Mend: attach one.", "Rule: common practice, no source"}
	if got := read(); !slices.Equal(got, first) {
		t.Errorf("at first: got %q, want %q", got, first)
	}
	f.list.Select(1)
	second := []string{"Pump is far", "Why: the feeder is long."}
	if got := read(); !slices.Equal(got, second) {
		t.Errorf("after a click: got %q, want %q", got, second)
	}
	f.Show(sample[1:])
	if got := read(); !slices.Equal(got, second) {
		t.Errorf("in another list: got %q, want %q", got, second)
	}
	f.Show(sample[:1])
	if got := read(); !slices.Equal(got, first) {
		t.Errorf("once it is gone: got %q, want %q", got, first)
	}
}

func TestClickGoesThere(t *testing.T) {
	var got []diagram.ID
	times := 0
	f := newFindings(t, func(records []diagram.ID) { got, times = records, times+1 })
	f.Show(sample)
	for _, i := range []int{1, 0, 0} {
		f.list.Select(i)
		if !slices.Equal(got, sample[i].Records) {
			t.Errorf("row %d leads to %v, want %v", i, got, sample[i].Records)
		}
	}
	if times != 3 {
		t.Errorf("went there %d times, want 3: the same row may be clicked again", times)
	}
}

// A click may make the list another one.
func TestClickThatChangesTheList(t *testing.T) {
	var f *Findings
	f = newFindings(t, func([]diagram.ID) { f.Show(nil) })
	f.Show(sample)
	f.list.Select(2)
	if f.list.Length() != 0 {
		t.Errorf("got %d rows", f.list.Length())
	}
}

func TestNoFindings(t *testing.T) {
	f := newFindings(t, nil)
	for _, row := range []struct {
		findings []analysis.Finding
		empty    bool
	}{{nil, true}, {sample, false}, {nil, true}} {
		f.Show(row.findings)
		if f.empty.Visible() != row.empty {
			t.Errorf("with %d findings it says that there are none: %t", len(row.findings), f.empty.Visible())
		}
	}
}
