package report

import (
	"slices"
	"strings"

	"clampline/analysis/compare"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// quantity is how many of one kind a plan has: of protectors with the same nameplate, or
// of breakers of one size.
type quantity struct {
	kind    diagram.Protector // without what differs from one to the next
	breaker bool              // of it the breaker alone counts
	number  int
	buy     int // of them that do not stand in the building yet
	tags    []string
	price   float64 // of those to buy, in all
	lacking int     // of them without a price
}

// quantitiesOf counts the protectors of a schedule by kind, then their breakers.
func quantitiesOf(w *Work, rows []item) []quantity {
	cost := compare.CostOf(w.Document, w.Result.Plan)
	var out []quantity
	count := func(kind diagram.Protector, breaker bool, i item, buy bool) {
		at := slices.IndexFunc(out, func(q quantity) bool { return q.kind == kind && q.breaker == breaker })
		if at < 0 {
			at, out = len(out), append(out, quantity{kind: kind, breaker: breaker})
		}
		out[at].add(i, w.Document.NameOf(i.ID), buy)
	}
	for _, i := range rows {
		count(kindOf(i.Protector), false, i, slices.Contains(cost.Bought, i.ID))
	}
	for _, i := range rows {
		if i.Breaker.Rated > 0 && !i.Breaker.Shared {
			size := diagram.Protector{Breaker: diagram.BreakerData{Rated: i.Breaker.Rated, Poles: i.Breaker.Poles}}
			count(size, true, i, slices.Contains(cost.Bought, i.ID))
		}
	}
	return out
}

func (q *quantity) add(i item, tag string, buy bool) {
	q.number++
	q.tags = append(q.tags, tag)
	if !buy {
		return
	}
	q.buy++
	if !q.breaker {
		q.price += i.Price
		if i.Price == 0 {
			q.lacking++
		}
	}
}

// kindOf is a protector without what differs between two of a kind.
func kindOf(p diagram.Protector) diagram.Protector {
	return diagram.Protector{
		Type: p.Type, Rating: p.Rating, System: p.System, Modes: p.Modes, In: p.In, Imax: p.Imax, Iimp: p.Iimp, SCCR: p.SCCR,
		External: p.External, Catalogue: p.Catalogue,
	}
}

func quantityColumns(w *Work) []table.Column[quantity] {
	price := strings.Join(notEmpty("Price in all", unit.Visible(w.Document.Info().Costs.Currency)), ", ")
	out := []table.Column[quantity]{
		{Name: "To buy", Value: func(q quantity) any { return q.buy }},
		{Name: "In the plan", Value: func(q quantity) any { return q.number }},
		words("What", 24, func(q quantity) string { return q.what(w) }),
	}
	out = append(out, ratingColumns(w, func(q quantity) diagram.Protector { return q.kind })...)
	return append(out,
		words("Catalogue", 16, func(q quantity) string { return q.kind.Catalogue }),
		number(price, func(q quantity) float64 { return q.price }),
		words("Remark", 20, func(q quantity) string { return q.remark() }),
		words("Tags", 30, func(q quantity) string { return strings.Join(q.tags, ", ") }))
}

func (q quantity) what(w *Work) string {
	if q.breaker {
		out := "Breaker, " + w.current(q.kind.Breaker.Rated)
		if q.kind.Breaker.Poles > 0 {
			out += ", " + unit.CountOf(q.kind.Breaker.Poles, "pole")
		}
		return out
	}
	if q.kind.External {
		return "Surge protector (SPD), own enclosure"
	}
	return "Surge protector (SPD), in the board"
}

// remark says what the price lacks.
func (q quantity) remark() string {
	switch {
	case q.lacking == 0:
		return ""
	case q.lacking == q.buy:
		return "price not stated"
	}
	return unit.CountOf(q.lacking, "of them|of them") + " without a price"
}

// quantityNotes say what counts, and which protectors go.
func (w *Work) quantityNotes() []string {
	out := []string{"To buy is what does not stand in the building as found. Breakers are those of the protectors; whether one that is there can stay is seen on site."}
	if gone := compare.CostOf(w.Document, w.Result.Plan).Gone; len(gone) > 0 {
		var names []string
		for _, id := range gone {
			p, _ := w.Document.Protector(id)
			names = append(names, w.Document.NameOf(id)+" on "+w.Document.NameOf(p.Bus))
		}
		out = append(out, "Taken away: "+strings.Join(names, "; ")+".")
	}
	return out
}
