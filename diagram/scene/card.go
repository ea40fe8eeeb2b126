package scene

import (
	"fmt"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// The edge of cards, in mm.
const (
	cardWidth  = 0.35
	cardRadius = 1.1
	letterSize = 3.4
)

// cards are the cards drawn so far: many tags have the same.
type cards map[cardShape]stamped

// cardShape is all that tells one card from another; its colour is that of
// the stamp.
type cardShape struct {
	width, height float64
	badge         string
}

type stamped struct {
	key     string
	picture *draw.Picture
}

// place draws the card of a tag.
func (c cards) place(p *draw.Picture, t *tag) {
	size := t.size // not that of the box, which is rounded where it lies
	shape := cardShape{size.X, size.Y, t.badge}
	card, ok := c[shape]
	if !ok {
		card = stamped{fmt.Sprintf("card/%g/%g/%q", shape.width, shape.height, shape.badge), shape.picture()}
		c[shape] = card
	}
	p.Place(card.key, card.picture, t.box.Min, 0, t.role)
}

// picture draws the card with its top left corner at the origin: the badge and
// the edge in ink, the edge over both.
func (s cardShape) picture() *draw.Picture {
	p := draw.NewPicture()
	edge := draw.Pen{Role: draw.RoleInk, Width: cardWidth}
	box := geom.RectOf(geom.Point{}, geom.Pt(s.width, s.height))
	outline := draw.Rectangle(box, cardRadius)
	if s.badge == "" {
		p.FillStroke(outline, draw.RoleCard, edge)
		return p
	}
	p.Fill(outline, draw.RoleCard)
	badge := box
	badge.Max.X = min(badge.Max.X, badgeWidth)
	p.FillStroke(draw.Rectangle(badge, cardRadius), draw.RoleInk, edge)
	p.Stroke(outline, edge)
	p.Text(draw.Text{
		At: badge.Center().Add(geom.Pt(0, draw.CapHeight(letterSize)/2)), Size: letterSize, Bold: true,
		Align: draw.Center, Role: draw.RoleOnVerdict, String: s.badge,
	})
	return p
}
