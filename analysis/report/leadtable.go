package report

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// conductor is one lead of a protector as the crew cuts it.
type conductor struct {
	name         string
	target, most float64 // m
	role         draw.Role
}

// conductors returns the leads of a protector, one for each line.
func (b board) conductors(j job) []conductor {
	var out []conductor
	add := func(name string, l diagram.Lead, role draw.Role) {
		out = append(out, conductor{name, l.Length, b.mostOf(l, j.room), role})
	}
	for _, name := range b.lineNames(j) {
		add(name, j.Leads.Phase, draw.RoleInk)
	}
	if lead.UsesNeutral(&j.Protector) {
		add("neutral", j.Leads.Neutral, draw.RoleFaint)
	}
	if lead.UsesEarth(&j.Protector) {
		add(b.earth(), j.Leads.Earth, draw.RoleHeld)
	}
	return out
}

// lineNames names the lines as the convention does.
func (b board) lineNames(j job) []string {
	n := b.system.Lines()
	if n == 0 {
		n = j.System.Lines()
	}
	switch {
	case n < 2:
		return []string{"line"}
	case b.Convention == unit.IEC:
		return []string{"L1", "L2", "L3"}[:n]
	case n == 2:
		return []string{"line 1", "line 2"}
	}
	return []string{"phase A", "phase B", "phase C"}
}

const (
	leadRow  = 6.2 // mm
	leadType = 3.0
)

// leadTable draws the leads as bars, each with its target, its greatest length, and a
// box for the length as built.
func (b board) leadTable(j job) page.Block {
	rows := b.conductors(j)
	return page.Drawn{Height: leadRow * float64(len(rows)+1), Draw: func(width float64) *draw.Picture {
		p := draw.NewPicture()
		longest := 1e-3
		for _, c := range rows {
			longest = max(longest, c.most)
		}
		b.leadHead(p, width)
		for i, c := range rows {
			b.leadBar(p, width, leadRow*float64(i+1), c, longest)
		}
		return p
	}}
}

// columnsOf are where a row of the leads has its parts, mm.
func columnsOf(width float64) (bar, barEnd, target, most, box float64) {
	box = width - 36
	most = box - 6
	target = most - 28
	return 24, target - 24, target, most, box
}

func (b board) leadHead(p *draw.Picture, width float64) {
	_, _, target, most, box := columnsOf(width)
	t := page.Type{Size: 2.6, Role: draw.RoleFaint, Align: draw.Right}
	y := leadRow * 0.7
	page.Write(p, geom.Pt(target, y), 26, "cut to", t)
	page.Write(p, geom.Pt(most, y), 26, "at most", t)
	t.Align = draw.Left
	page.Write(p, geom.Pt(box, y), 30, "as built", t)
}

func (b board) leadBar(p *draw.Picture, width, y float64, c conductor, longest float64) {
	bar, barEnd, target, most, box := columnsOf(width)
	middle, base := y+leadRow/2, y+leadRow/2+draw.CapHeight(leadType)/2
	scale := (barEnd - bar) / longest
	page.Write(p, geom.Pt(0, base), bar-1, c.name, page.Type{Size: leadType})
	end, last := bar+max(1, c.target*scale), bar+max(1, c.most*scale)
	p.Fill(draw.Rectangle(geom.RectOf(geom.Pt(bar, middle-1.2), geom.Pt(end, middle+1.2)), 0.4), c.role)
	if last > end {
		p.Stroke(draw.Rectangle(geom.RectOf(geom.Pt(end, middle-1.1), geom.Pt(last, middle+1.1)), 0), draw.Pen{Role: draw.RoleFaint, Width: 0.2})
	}
	page.Write(p, geom.Pt(target, base), 26, b.lengthOr(c.target), page.Type{Size: leadType, Bold: true, Align: draw.Right})
	page.Write(p, geom.Pt(most, base), 26, b.lengthOr(c.most), page.Type{Size: leadType, Align: draw.Right})
	p.Stroke(draw.Rectangle(geom.RectOf(geom.Pt(box, middle-2.2), geom.Pt(box+24, middle+2.2)), 0.5), draw.Pen{Width: 0.25})
	page.Write(p, geom.Pt(box+26, base), 8, map[bool]string{true: "mm", false: "in"}[b.Convention == unit.IEC], page.Type{Size: leadType, Role: draw.RoleFaint})
}

// lengthOr is a length, or what stands for none: a mounting on the bars themselves.
func (b board) lengthOr(m float64) string {
	if m == 0 {
		return "none"
	}
	return b.leadLength(m)
}

// costsText says what a longer lead costs, in volts, with the rates of the working, and
// which lead may not be the longer one.
func (b board) costsText(j job) string {
	each, step := "Each inch", lead.Inch
	if b.Convention == unit.IEC {
		each, step = "Each centimetre", 0.01
	}
	apart, together := lead.RateOf(false), lead.RateOf(true)
	volts := func(perMetre float64) string { return analysis.FigureIn(math.Round(perMetre*step*10)/10, "V") }
	text := fmt.Sprintf("%s by which line and return both are longer lets about %s more through where they run apart, and %s where they are twisted", each, volts(apart.VPR), volts(together.VPR))
	text += "; the first " + lead.Inches(lead.InVPR) + " of each are in the VPR"
	if j.Rating == diagram.Up {
		text = fmt.Sprintf("%s of either lead lets about %s more through where they run apart, and %s where they are twisted; a Up includes none", each, volts(apart.Up), volts(together.Up))
	}
	out := b.sentence(text) + " If one must be longer, it is not the " + b.earth() + ": that one is the shortest."
	if j.room.Part != "" {
		return out + " At most is up to where " + b.name(j.room.Part) + " keeps its verdict."
	}
	return out + " At most is up to where the rule on leads has nothing to say."
}
