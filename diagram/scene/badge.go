package scene

import (
	"maps"
	"slices"
	"strconv"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Badge counts what was found at a record. It is drawn as a disc where some of
// it is wrong, and as a triangle where all of it is only doubtful.
type Badge struct {
	Count int // zero or less shows nothing
	Wrong bool
}

// Sizes of badges, in mm. The triangle is about as large as the disc.
const (
	badgeRadius  = 1.9  // of the disc
	triangleHalf = 2.6  // half the width of the triangle
	triangleTop  = -2.5 // from the middle of the badge down
	triangleFoot = 1.9
	badgeRim     = 0.4 // in the colour of the sheet about it
)

// paintBadges draws the badges over all else, in the order of the ids.
func (s *Scene) paintBadges(p *draw.Picture) {
	drawn := map[Badge]stamped{}
	for _, id := range slices.SortedFunc(maps.Keys(s.badgeAt), diagram.CompareID) {
		badge, at := s.badges[id], s.badgeAt[id]
		stamp, ok := drawn[badge]
		if !ok {
			stamp = stamped{badge.key(), badge.picture()}
			drawn[badge] = stamp
		}
		p.Begin(string(id))
		p.Place(stamp.key, stamp.picture, at, 0, draw.RoleInk)
		p.End()
	}
}

func (b Badge) text() string {
	if b.Count > 99 {
		return "99+"
	}
	return strconv.Itoa(b.Count)
}

func (b Badge) key() string {
	if b.Wrong {
		return "badge/wrong/" + b.text()
	}
	return "badge/doubtful/" + b.text()
}

// picture draws the badge with its middle at the origin.
func (b Badge) picture() *draw.Picture {
	p := draw.NewPicture()
	rim := draw.Pen{Role: draw.RolePaper, Width: badgeRim}
	text, size, low := b.text(), 0.0, 0.0
	if b.Wrong {
		p.FillStroke(draw.Circle(geom.Point{}, badgeRadius), draw.RoleExceeded, rim)
		size = [4]float64{0, 2.6, 2.2, 1.6}[len(text)]
	} else {
		p.FillStroke(badgeTriangle(), draw.RoleTight, rim)
		size, low = [4]float64{0, 2.3, 1.7, 1.2}[len(text)], 0.55 // where a triangle is wide
	}
	p.Text(draw.Text{
		At: geom.Pt(0, low+draw.CapHeight(size)/2), Size: size, Bold: true,
		Align: draw.Center, Role: draw.RoleOnVerdict, String: text,
	})
	return p
}

// badgeTriangle stands on its base, as wide as it needs to hold a number.
func badgeTriangle() draw.Path {
	var out draw.Path
	out.MoveTo(geom.Pt(0, triangleTop))
	out.LineTo(geom.Pt(triangleHalf, triangleFoot))
	out.LineTo(geom.Pt(-triangleHalf, triangleFoot))
	out.Close()
	return out
}
