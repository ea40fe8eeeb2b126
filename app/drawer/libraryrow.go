package drawer

import (
	"cmp"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
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

// signs show whether an entry fits.
type signs struct{ fits, doubtful, not, open fyne.Resource }

func newSigns() signs {
	return signs{
		fits:     theme.NewSuccessThemedResource(theme.ConfirmIcon()),
		doubtful: theme.NewWarningThemedResource(theme.WarningIcon()),
		not:      theme.NewErrorThemedResource(theme.CancelIcon()),
	}
}

// of returns the sign of a fit; none where it is not known.
func (s signs) of(f fit) fyne.Resource {
	switch {
	case !f.known:
		return s.open
	case !f.suits() && f.has(analysis.Error):
		return s.not
	case f.has(analysis.Warning):
		return s.doubtful
	}
	return s.fits
}

// entryRow is an entry in the list: its name and whose it is, and below them
// whether it fits and its ratings.
type entryRow struct {
	widget.BaseWidget
	ground *canvas.Rectangle // behind the line with the cursor
	sign   *widget.Icon
	name   *widget.Label
	whose  *look.Faint
	about  *look.Faint
	object *fyne.Container
}

func newEntryRow() *entryRow {
	r := &entryRow{ground: canvas.NewRectangle(color.Transparent), sign: widget.NewIcon(nil), name: widget.NewLabel(""), whose: look.NewFaint(""), about: look.NewFaint("")}
	r.name.Truncation, r.about.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	r.name.TextStyle.Bold = true
	r.ground.CornerRadius = theme.Size(theme.SizeNameSelectionRadius)
	sign := container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), r.sign)
	close := -2 * theme.Size(theme.SizeNameInnerPadding)
	lines := container.New(layout.NewCustomPaddedVBoxLayout(close), container.NewBorder(nil, nil, nil, r.whose, r.name), r.about)
	r.object = container.NewStack(r.ground, container.NewBorder(nil, nil, sign, nil, lines))
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer returns the renderer: the objects of the line.
func (r *entryRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.object) }

// show writes an entry.
func (r *entryRow) show(e library.Entry, f fit, l *Library) {
	setText(r.name, NameOf(e))
	r.about.SetText(aboutEntry(e, f, l.state))
	r.whose.SetText(map[bool]string{true: "mine", false: "built in"}[e.Own])
	if sign := l.signs.of(f); r.sign.Resource != sign {
		r.sign.SetResource(sign)
	}
}

func setText(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// mark shows whether the cursor is on the line, and whether keys move it.
func (r *entryRow) mark(cursor, focused bool) { markGround(r.ground, cursor, focused) }

// NameOf is what an entry is called.
func NameOf(e library.Entry) string { return cmp.Or(unit.Visible(e.Protector.Name), "(no name)") }

// aboutEntry says in a line whether an entry fits, or else why not, and its
// ratings.
func aboutEntry(e library.Entry, f fit, s LibraryState) string {
	ratings := ratingsOf(e.Protector, s.Convention)
	if against, ok := f.reason(); ok {
		text := unit.Words(againstText(against), s.Convention)
		if f.suits() {
			return okFor(s.Kind) + ", but " + goingOn(text)
		}
		return unit.SentenceCase(text)
	}
	if f.known {
		return "OK · " + ratings
	}
	return ratings
}

// okFor says that an entry may stand on a part of the kind, or on all that are selected.
func okFor(kind diagram.Kind) string {
	if kind == "" {
		return "OK for all of them"
	}
	return "OK for this " + string(kind)
}

// goingOn returns a text so that it goes on with a sentence.
func goingOn(text string) string {
	if rest, ok := strings.CutPrefix(text, "The "); ok {
		return "the " + rest
	}
	return text
}

// ratingsOf lists what the name of a kind leaves out mostly, what it is chosen by
// first: "Iimp 25 kA · SCCR 50 kA · In 20 kA · Uc 275 V L-N".
func ratingsOf(p diagram.Protector, c unit.Convention) string {
	var words []string
	_, highest := ratingWords(p)
	for _, current := range []current{{"Iimp", p.Iimp}, {"SCCR", p.SCCR}, {"In", p.In}, {"Imax", p.Imax}} {
		if current.amps > 0 {
			words = append(words, current.word+" "+unit.Format(current.amps, unit.Current, c))
		}
	}
	for _, mode := range diagram.Modes() {
		if r := p.Modes[mode]; r.Connected && r.MCOV > 0 {
			words = append(words, highest+" "+unit.Format(r.MCOV, unit.Voltage, c)+" "+unit.ModeWord(mode.String(), c))
			break
		}
	}
	return strings.Join(words, " · ")
}

// ratingWords returns what the levels and the continuous voltages are called.
func ratingWords(p diagram.Protector) (level, highest string) {
	if p.Rating == diagram.Up {
		return "Up", "Uc"
	}
	return "VPR", "MCOV"
}

// current is a rating in amperes.
type current struct {
	word string
	amps float64
}

// markGround shows behind a line whether the cursor is on it, and whether keys
// move it.
func markGround(ground *canvas.Rectangle, cursor, focused bool) {
	fill, edge, width := color.Color(color.Transparent), color.Color(color.Transparent), float32(0)
	if cursor {
		fill = theme.Color(theme.ColorNameSelection)
	}
	if cursor && focused {
		edge, width = theme.Color(theme.ColorNamePrimary), cursorEdge
	}
	if ground.FillColor != fill || ground.StrokeColor != edge {
		ground.FillColor, ground.StrokeColor, ground.StrokeWidth = fill, edge, width
		ground.Refresh()
	}
}
