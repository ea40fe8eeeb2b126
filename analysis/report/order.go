package report

import (
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// has reports whether one of the jobs is of a sort.
func (b board) has(sorts ...doing) bool {
	return slices.ContainsFunc(b.jobs, func(j job) bool { return slices.Contains(sorts, j.doing) })
}

// order is what is done, in its order (common practice, no source).
func (b board) order() []string {
	earth := b.earth()
	out := []string{
		"Switch off, lock out and tag each source. Test for absence of voltage between all conductors and to " + earth + ", the tester proved on a live source before and after.",
		"Cover off. Photograph as found.",
	}
	if b.has(takingOut) {
		out = append(out, "Take the old protector out ("+b.tagsOf(takingOut)+"): lines first, "+b.withNeutral("then neutral, ", "")+earth+" last. Leave no bare end; a breaker that is not used again is taken out or marked as spare, and its opening closed."+b.sharing())
	}
	if !b.has(puttingIn, changing) {
		return append(out, "Cover on; photograph.")
	}
	if b.has(puttingIn) {
		out = append(out, "Hold the label of the protector against this sheet: system, type, voltages, SCCR not below the fault current. What differs is asked about before it is connected.",
			"Mount the protector and set its breaker so that the leads come out as short as above; breaker off.")
	}
	out = append(out, "Cut the leads to the lengths above, "+b.withNeutral("neutral and ", "")+earth+" with the same care as the lines. Twist all leads together, once every "+b.twist()+". No coil, no sharp bend.",
		b.connect(earth),
		"Torque each terminal as on the label of protector, breaker and bar. Pull each lead by hand.",
		"Measure each lead from terminal to terminal along its way, and write it above. Photograph.")
	return out
}

// sharing warns of a breaker from which an old protector goes and something else does not.
func (b board) sharing() string {
	for _, j := range b.jobs {
		if j.doing == takingOut && j.Breaker.Shared {
			return " The breaker of " + b.name(j.ID) + " feeds something else as well: find out what, and leave that connected to it."
		}
	}
	return ""
}

// bar is what a conductor is connected to.
func (b board) bar(conductor string) string {
	if b.part.Kind.IsBoard() {
		return conductor + " bar"
	}
	return conductor + " terminal of the equipment"
}

// twist is how often leads are twisted, in the units of the convention.
func (b board) twist() string {
	if b.Convention == unit.IEC {
		return analysis.FigureIn(10, "cm")
	}
	return analysis.FigureIn(4, "in")
}

// withNeutral returns the first text where there is a neutral, or it is not known that
// there is none; else the second.
func (b board) withNeutral(with, without string) string {
	if b.system.Neutral || !b.system.Known() {
		return with
	}
	return without
}

// connect says in which order the conductors of this protector are connected.
func (b board) connect(earth string) string {
	var bars []string
	uses := func(has func(*diagram.Protector) bool) bool {
		return slices.ContainsFunc(b.jobs, func(j job) bool { return j.doing != takingOut && has(&j.Protector) })
	}
	if uses(lead.UsesEarth) {
		bars = append(bars, earth+" to the "+b.bar(earth))
	}
	if uses(lead.UsesNeutral) {
		bars = append(bars, "neutral to the "+b.bar("neutral"))
	}
	out := unit.SentenceCase(strings.Join(append(bars, "lines to the breaker, breaker off"), ", then ")) + "."
	if b.system.Wiring == diagram.HighLeg {
		out += " The high leg goes to the terminal that the label marks for it, and to no other."
	}
	return out
}

func (b board) tagsOf(doing doing) string {
	var out []string
	for _, j := range b.jobs {
		if j.doing == doing {
			out = append(out, b.name(j.ID))
		}
	}
	return unit.Names(out)
}

// beforeOn is what is looked at before voltage comes back.
func (b board) beforeOn() []string {
	earth := b.earth()
	bond := b.withNeutral("Neutral and "+earth+" are joined where they were as found, and nowhere else", "The connections to "+earth+" are those as found, and no line has another one")
	if b.part.Kind.IsBoard() && b.system.Neutral {
		bond += map[bool]string{true: "; here they are joined, by the drawing", false: "; here they are not, by the drawing"}[b.part.Board.Bonded]
	}
	return []string{
		"No tool, strand or cutting left inside; unused openings closed; cover on.",
		bond + ".",
		"Where insulation is measured: the protector disconnected for that, " + b.withNeutral("lines and neutral", "each line") + ", and connected again.",
	}
}

// afterOn is what is looked at with voltage on.
func (b board) afterOn() []string {
	if !b.has(puttingIn, changing) {
		return []string{"Energise by the procedure of the site. What the board feeds runs as before."}
	}
	return []string{
		"Energise by the procedure of the site; the breaker of the protector last.",
		"Voltages at the protector as they should be" + b.voltages() + ".",
		"The indicator shows for each line what its label calls good, mostly a green light. Alarm contact and buzzer, where there are any, are tested.",
		"If it is red, dark, or sounds: breaker off; lock out; look whether each line " + b.withNeutral("and the neutral arrive", "arrives") + " at the protector. If so, it is faulty: replace it. Until then the breaker stays off, marked “no surge protection”, and the office is told.",
	}
}

// voltages says what a meter should read.
func (b board) voltages() string {
	if !b.system.Known() {
		return ""
	}
	var out []string
	if b.system.Neutral {
		text := "about " + b.voltage(b.system.LineToNeutral()) + " from line to neutral"
		if high := b.system.HighestToNeutral(); high > b.system.LineToNeutral()*1.01 {
			text += ", " + b.voltage(high) + " from the high leg"
		}
		out = append(out, text)
	}
	if b.system.Lines() > 1 {
		out = append(out, b.voltage(b.system.Voltage)+" between lines")
	}
	return ": " + strings.Join(out, ", ")
}

// record is what is written down when the work is done.
func (b board) record() []page.Block {
	out := page.Together{page.Heading{Text: "Done", Minor: true}}
	for _, j := range b.jobs {
		if j.doing != takingOut {
			out = append(out, page.Drawn{Height: 6, Draw: func(width float64) *draw.Picture { return b.indicator(j, width) }})
		}
	}
	return []page.Block{append(out,
		page.Signatures{"Spaces used", "Photos (file names)", "Differs from this sheet by", "Torque tool", "Done by", "Date", "Checked by"},
		page.Paragraph{Text: "The order of work and the checks are common practice, no source; what the labels and the maker's instructions say goes before them.", Faint: true})}
}

// indicator draws a square to tick for each line of a protector whose indicator is good.
func (b board) indicator(j job, width float64) *draw.Picture {
	const size, side, base = 3.0, 3.0, 4.2
	p := draw.NewPicture()
	title := "Indicator of " + b.name(j.ID) + " good:"
	names := b.lineNames(j)
	left := min(draw.TextWidth(title, size, false), width*0.45)
	page.Write(p, geom.Pt(0, base), left+1e-6, title, page.Type{Size: size})
	x, each := left+4, (width-left-4)/float64(len(names))
	for i, name := range names {
		at := x + float64(i)*each
		page.Square(p, geom.Pt(at, base), side, false)
		page.Write(p, geom.Pt(at+side+1.5, base), each-side-3, name, page.Type{Size: size})
	}
	return p
}
