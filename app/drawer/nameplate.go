package drawer

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// nameplate shows all of one entry, what speaks against it on the bus, and what
// can be done with it.
type nameplate struct {
	*page
	content   *fyne.Container
	put       *look.Button
	replace   *look.Button
	edit      *look.Button
	duplicate *look.Button
	remove    *look.Button
}

func newNameplate(l *Library) *nameplate {
	act := func(hand func(library.Entry)) func() {
		return func() {
			if e, ok := l.entry(); ok {
				hand(e)
			}
		}
	}
	n := &nameplate{content: container.NewVBox()}
	n.put = look.NewButton("", act(func(e library.Entry) { l.hands.Put(e) }))
	n.replace = look.NewButton("", act(func(e library.Entry) { l.hands.Replace(e) }))
	n.edit = look.NewButton("Edit", act(func(e library.Entry) { l.hands.Edit(e) }))
	n.duplicate = look.NewButton("Duplicate", act(func(e library.Entry) { l.hands.Duplicate(e) }))
	n.remove = look.NewButton("Remove …", act(func(e library.Entry) { l.hands.Remove(e) }))
	n.put.Importance = widget.HighImportance
	n.page = newPage(n.content, container.NewVBox(), n.put, n.replace, n.edit, n.duplicate, n.remove)
	return n
}

// show shows the entry with the cursor.
func (n *nameplate) show(l *Library) {
	e, ok := l.entry()
	n.offer(l, e, ok)
	n.content.Objects = nil
	if ok {
		n.content.Objects = plateOf(e, l.fits.of(e), l)
	}
	n.content.Refresh()
	n.arrange()
}

// offer sets the buttons up. What a built-in kind cannot is not shown; the one
// that places says why it cannot.
func (n *nameplate) offer(l *Library, e library.Entry, there bool) {
	s := l.state
	name(n.put, cut(s.Why), "Put it on "+l.onBus(), len(s.Buses) > 0)
	setEnabled(n.put, there && len(s.Buses) > 0)
	name(n.replace, "", "Replace "+cutTo(s.ProtectorName, nameRunes), s.Protector != "")
	setVisible(n.replace, there && s.Protector != "")
	mine := s.Broken == ""
	setEnabled(n.duplicate, there && mine)
	for _, b := range []*look.Button{n.edit, n.remove} {
		setVisible(b, there && e.Own)
		setEnabled(b, mine)
	}
}

// name writes one of two texts on a button.
func name(b *look.Button, without, with string, on bool) {
	text := without
	if on {
		text = with
	}
	if b.Text != text {
		b.SetText(text)
	}
}

// plateOf writes all that an entry says, and what is found about it on the bus.
func plateOf(e library.Entry, f fit, l *Library) []fyne.CanvasObject {
	c := l.state.Convention
	whose := "Built in"
	if e.Own {
		whose = "Mine"
	}
	title := widget.NewRichText(
		&widget.TextSegment{Text: NameOf(e), Style: look.Style(look.ColorHeading, theme.SizeNameSubHeadingText, true, false)},
		&widget.TextSegment{Text: whose, Style: look.Style(look.ColorFaint, theme.SizeNameText, false, false)})
	title.Wrapping = fyne.TextWrapWord
	out := []fyne.CanvasObject{title}
	if f.known && len(f.findings) == 0 {
		out = append(out, look.NewFaint("Nothing speaks against it on "+l.state.BusName+"."))
	}
	for _, x := range f.findings {
		out = append(out, foundLine(x, l))
	}
	out = append(out, container.NewGridWithColumns(2, plateTable(e.Protector, c), container.NewVBox(modesTable(e.Protector, c))))
	if e.Protector.Note != "" {
		note := widget.NewLabel(e.Protector.Note)
		note.Wrapping = fyne.TextWrapWord
		out = append(out, note)
	}
	return out
}

// plateTable lists what is stated beside the modes.
func plateTable(p diagram.Protector, c unit.Convention) fyne.CanvasObject {
	table := container.New(layout.NewFormLayout())
	add := func(label, text string) {
		if text != "" {
			value := widget.NewLabel(text)
			value.Wrapping = fyne.TextWrapWord
			table.Add(look.NewFaint(label))
			table.Add(value)
		}
	}
	own := map[string]string{
		"system": unit.Terms(systemText(p.System), c), "breaker": breakerText(p.Breaker, c), "leads": leadsText(p.Leads, c), "external": "",
	}
	if p.External {
		own["external"] = "outside the board"
	}
	labels := map[string]string{"system": "Made for", "breaker": "Overcurrent device", "leads": "Leads", "external": "Place"}
	told := map[string]bool{"name": true, "note": true, "rating": true, "modes": true} // elsewhere
	for _, f := range diagram.ProtectorFields() {
		group := f.Names()[0]
		text, isGroup := own[group]
		switch {
		case f.Label == "" || told[group]:
		case isGroup:
			add(labels[group], text)
			told[group] = true
		default:
			add(unit.SentenceCase(f.Title(c)), f.Plain(&p, c))
		}
	}
	return table
}

// modesTable lists level and continuous voltage in each connected mode, and
// where there is a gap or gas tube.
func modesTable(p diagram.Protector, c unit.Convention) fyne.CanvasObject {
	level, highest := ratingWords(p)
	table := container.NewGridWithColumns(3, look.NewFaint("Mode"), look.NewFaint(level), look.NewFaint(highest))
	for _, mode := range diagram.Modes() {
		r := p.Modes[mode]
		if !r.Connected {
			continue
		}
		word := unit.ModeWord(mode.String(), c)
		if r.Switching {
			word += ", gap"
		}
		for _, text := range []string{word, orDash(r.Level, c), orDash(r.MCOV, c)} {
			table.Add(widget.NewLabel(text))
		}
	}
	return table
}

func orDash(volts float64, c unit.Convention) string {
	if volts == 0 {
		return "–"
	}
	return unit.Format(volts, unit.Voltage, c)
}

// systemText names a system as in the list to pick from, or as on a tag.
func systemText(s diagram.System) string {
	for _, preset := range diagram.Presets() {
		if preset.System == s {
			return preset.Name
		}
	}
	if !s.Known() {
		return ""
	}
	return s.String() + " V"
}

// breakerText says what overcurrent device a protector asks for: "at least 30 A,
// 3 poles".
func breakerText(b diagram.BreakerData, c unit.Convention) string {
	var words []string
	if b.Rated > 0 {
		words = append(words, unit.Format(b.Rated, unit.Current, c))
	}
	if b.Least > 0 {
		words = append(words, "at least "+unit.Format(b.Least, unit.Current, c))
	}
	if b.Most > 0 {
		words = append(words, "at most "+unit.Format(b.Most, unit.Current, c))
	}
	if b.Poles > 0 {
		words = append(words, unit.CountOf(b.Poles, "pole"))
	}
	return strings.Join(words, ", ")
}

// leadsText says with what leads it comes, or how they are run as a rule.
func leadsText(l diagram.Leads, c unit.Convention) string {
	var words []string
	for _, lead := range []struct {
		word string
		lead diagram.Lead
	}{{"phase", l.Phase}, {"neutral", l.Neutral}, {unit.EarthWord(c), l.Earth}} {
		if lead.lead.Length > 0 {
			words = append(words, lead.word+" "+unit.Format(lead.lead.Length, unit.LeadLength, c)+sizeText(lead.lead, c))
		}
	}
	if len(words) > 0 && l.Run != "" {
		words = append(words, string(l.Run))
	}
	return strings.Join(words, ", ")
}

func sizeText(l diagram.Lead, c unit.Convention) string {
	if l.Area == 0 {
		return ""
	}
	return " of " + unit.Format(l.Area, unit.Area, c)
}

// foundLine is one finding about the entry on the bus: its sign, what is found
// and why.
func foundLine(x analysis.Finding, l *Library) fyne.CanvasObject {
	c := l.state.Convention
	text := widget.NewRichText(
		&widget.TextSegment{Text: unit.SentenceCase(unit.Words(againstText(x), c)) + ". ", Style: look.Style(theme.ColorNameForeground, theme.SizeNameText, true, true)},
		&widget.TextSegment{Text: unit.SentenceCase(unit.Words(x.Why, c)) + ".", Style: look.Style(look.ColorFaint, theme.SizeNameText, false, true)})
	text.Wrapping = fyne.TextWrapWord
	sign := widget.NewIcon(iconsOf()[x.Severity])
	return container.NewBorder(nil, nil, container.NewVBox(sign), nil, text)
}
