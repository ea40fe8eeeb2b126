package details

import (
	"cmp"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// heads lays out the texts above the fields, below each other and without their
// margins, so that they begin where the labels of the fields do. What goes along a
// feeder has the room of two lines, also while it takes one: the fields must not
// move under the pointer.
type heads struct {
	name     *widget.RichText
	about    *look.Faint
	verdict  *look.Faint
	ofFeeder bool
}

var _ fyne.Layout = (*heads)(nil)

func (h *heads) MinSize([]fyne.CanvasObject) fyne.Size {
	width, height := float32(0), float32(0)
	h.each(func(o fyne.CanvasObject, high float32) {
		width, height = max(width, o.MinSize().Width), height+high
	})
	return fyne.NewSize(max(width-2*theme.InnerPadding(), 0), height)
}

// Layout gives each its width first, which its height depends on.
func (h *heads) Layout(objects []fyne.CanvasObject, room fyne.Size) {
	margin := theme.InnerPadding()
	for _, o := range objects {
		o.Resize(fyne.NewSize(room.Width+2*margin, o.Size().Height))
	}
	top := float32(0)
	h.each(func(o fyne.CanvasObject, high float32) {
		above := margin / 2
		if o == fyne.CanvasObject(h.verdict) {
			above += margin // it goes on where the text before ends
		}
		o.Move(fyne.NewPos(-margin, top-above))
		o.Resize(fyne.NewSize(room.Width+2*margin, high+margin))
		top += high
	})
}

// each goes through the texts with the height that each takes.
func (h *heads) each(do func(o fyne.CanvasObject, high float32)) {
	margin := theme.InnerPadding()
	do(h.name, h.name.MinSize().Height-margin)
	do(h.about, h.about.MinSize().Height-margin)
	if h.ofFeeder {
		line := fyne.MeasureText("M", theme.TextSize(), fyne.TextStyle{}).Height
		do(h.verdict, max(h.verdict.MinSize().Height, 2*line+2*margin)-2*margin)
	}
}

// head names what is selected, says in a line what it is, and of a feeder how
// the voltage goes along it.
func (p *Panel) head() {
	name, about := p.heading()
	verdict := p.along()
	title := p.name.Segments[0].(*widget.TextSegment)
	if title.Text == name && p.about.Text() == about && p.verdict.Text() == verdict {
		return
	}
	title.Text = name
	p.name.Refresh()
	p.about.SetText(about)
	p.verdict.SetText(verdict)
	p.heads.ofFeeder = p.feeder() != nil
	p.scroll.Refresh() // the texts may want another number of lines
}

// feeder returns the selected feeder, or nil.
func (p *Panel) feeder() *diagram.Feeder {
	if p.state.elsewhere() || len(p.state.Selected) != 1 {
		return nil
	}
	if f, ok := p.editor.Document().Feeder(p.state.Selected[0]); ok {
		return &f
	}
	return nil
}

func (p *Panel) along() string {
	if f := p.feeder(); f != nil {
		return along(*f, p.state.Result, p.state.Convention)
	}
	return ""
}

func (p *Panel) heading() (name, about string) {
	doc := p.editor.Document()
	switch n := len(p.state.Selected); {
	case p.state.Entry != nil:
		entry, _ := p.state.Entry.Get()
		return cmp.Or(entry.Name, "(no name)"), "Protector of your library. Each change is kept at once, and is no part of the sheet."
	case p.state.Surges:
		return "Surge cases", p.cases.about()
	case n == 0:
		return "Sheet", "Nothing is selected."
	case n == 1:
		return headName(doc, p.state.Selected[0]), p.describe(p.state.Selected[0])
	default:
		names := listNames(doc, p.state.Selected)
		if p.alike() {
			names += "\nWhat is entered below goes for all of them."
		}
		return fmt.Sprintf("%d selected", n), names
	}
}

// headName is the name of a record as a heading: what stands in for the name of
// a feeder begins with a capital.
func headName(doc *diagram.Document, id diagram.ID) string {
	name := doc.NameOf(id)
	if f, ok := doc.Feeder(id); ok && f.Name == "" {
		return unit.SentenceCase(name)
	}
	return name
}

func listNames(doc *diagram.Document, ids []diagram.ID) string {
	const most = 12
	var names []string
	for i, id := range ids {
		if i == most {
			names = append(names, fmt.Sprintf("and %d more", len(ids)-most))
			break
		}
		names = append(names, doc.NameOf(id))
	}
	return strings.Join(names, ", ")
}

func (p *Panel) describe(id diagram.ID) string {
	doc := p.editor.Document()
	found := atMostTwo(faultsOf(doc, p.state.Result, BusOf(doc, p.state.Selected)))
	faults := faultLine(found, p.state.Convention)
	if faults == "" && len(found) > 0 {
		faults = "Fault current not known" // it keeps the room of the line to come
	}
	if part, ok := doc.Part(id); ok {
		return strings.TrimSpace(sentence(string(part.Kind), p.fedFrom(part)) + "\n" + faults)
	}
	if f, ok := doc.Feeder(id); ok {
		return sentence("feeder", "from "+doc.NameOf(f.From.Part)+" to "+doc.NameOf(f.To.Part))
	}
	if s, ok := doc.Protector(id); ok {
		return strings.TrimSpace(sentence("protector", "on "+doc.NameOf(s.Bus)) + "\n" + faults)
	}
	return ""
}

// fedFrom says what the part carries and how far it is from its source.
func (p *Panel) fedFrom(part diagram.Part) string {
	if p.state.Result == nil {
		return ""
	}
	node := p.state.Result.Topology.Node(part)
	if node == nil || !node.System.Known() {
		return ""
	}
	out := systemText(node.System)
	if part.Kind.IsSource() {
		return out
	}
	out += " from " + p.editor.Document().NameOf(node.Source) + ", " + unit.Format(node.Total, unit.Length, p.state.Convention)
	if !node.Fed {
		out += ", not connected now"
	}
	return out
}

// systemText is a system with its unit: "480Y/277 V", "230 V TN-S".
func systemText(s diagram.System) string {
	volts, rest, _ := strings.Cut(s.String(), " ")
	return strings.TrimSpace(volts + " V " + rest)
}

func sentence(kind, rest string) string {
	kind = unit.SentenceCase(kind)
	if rest == "" {
		return kind
	}
	return kind + " · " + rest
}
