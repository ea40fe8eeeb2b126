package diagramtest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Rand returns a source of random numbers that depends on the seed alone.
func Rand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// Random returns a valid document of about the given number of parts in which
// every field can be set, to plain or to extreme values, and feeders lie at
// random: there are loops, parts fed by nothing and sources that meet.
func Random(rng *rand.Rand, parts int) *diagram.Document {
	doc := diagram.New()
	Shake(rng, doc, parts)
	doc.Show(pick(shaker{Rand: rng}, doc.Plans()).ID)
	return doc
}

// Shake makes one random change to the document that adds about the given
// number of parts, with feeders and protectors, replaces some records and
// removes a few. It returns the change.
func Shake(rng *rand.Rand, doc *diagram.Document, parts int) diagram.Change {
	change, err := doc.Edit(func(tx *diagram.Tx) error {
		s := shaker{rng, tx}
		unlock(tx)
		s.remove()
		for range parts {
			tx.SetPart(s.part())
		}
		if rng.IntN(3) == 0 {
			plan := diagram.Plan{ID: tx.NewPlanID()}
			fill(s, diagram.PlanFields(), &plan, nil)
			plan.Of = pick(s, []diagram.ID{"", diagram.FirstPlan, "plan-99"}) // which may be gone
			tx.SetPlan(plan)
		}
		ends, hosts := s.all(hasPorts), s.all(diagram.Kind.TakesProtector)
		for range parts {
			s.feeder(ends)
		}
		for range parts/2 + 1 {
			s.protector(hosts)
		}
		for range 1 + rng.IntN(3) {
			s.surge()
		}
		for range rng.IntN(3) {
			s.aside()
		}
		var info diagram.Info
		fill(s, diagram.InfoFields(), &info, nil)
		tx.SetInfo(info)
		return nil
	})
	if err != nil {
		panic(fmt.Sprintf("diagramtest: a random change was refused: %v", err))
	}
	return change
}

// dot is an image of one grey pixel, as a sheet has it.
const dot = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg=="

type shaker struct {
	*rand.Rand
	tx *diagram.Tx
}

func pick[T any](s shaker, list []T) T { return list[s.IntN(len(list))] }

// maybe returns a value of the list or, one time in four, the zero value.
func maybe[T any](s shaker, list []T) T {
	if s.IntN(4) == 0 {
		var zero T
		return zero
	}
	return pick(s, list)
}

// number returns 0 or a value from low to high as above0 does.
func (s shaker) number(low, usual, high float64) float64 {
	if s.IntN(6) == 0 {
		return 0
	}
	return s.above0(low, usual, high)
}

// above0 returns a value up to usual in most cases, else one of the bounds.
func (s shaker) above0(low, usual, high float64) float64 {
	switch s.IntN(8) {
	case 0:
		return low
	case 1:
		return high
	}
	return max(low, usual*math.Pow(s.Float64(), 3))
}

// place returns millimetres on the sheet.
func (s shaker) place(most float64) float64 { return s.number(most*1e-9, most, most) }

func (s shaker) word() string {
	return pick(s, []string{"", "Panel", "Main <board> & \"co\"", "Größe µ Ω", "a\nb", "Pump house", "長い", " edge "})
}

// fill sets the fields of a record that are accepted, to plain or to extreme
// values. What other records decide on is left alone.
func fill[R any](s shaker, fields []diagram.Field[R], r *R, accept func(*diagram.Field[R]) bool) {
	for i := range fields {
		f := &fields[i]
		if accept != nil && !accept(f) {
			continue
		}
		switch f.Sort {
		case diagram.SortText:
			f.SetText(r, s.word())
		case diagram.SortImage:
			f.SetText(r, maybe(s, []string{dot}))
		case diagram.SortDate:
			f.SetText(r, pick(s, []string{"", "2026-11-29", "2024-02-29", "0001-01-01"}))
		case diagram.SortWord:
			if f.Needed {
				f.SetText(r, pick(s, f.Words))
			} else {
				f.SetText(r, maybe(s, f.Words))
			}
		case diagram.SortNumber:
			*f.Number(r) = s.figure(f.Range, f.UsualOf(r).Usual())
		case diagram.SortCount:
			*f.Count(r) = max(0, int(f.Range.Low)) + s.IntN(min(int(f.Range.High), 41)+1)
		case diagram.SortFlag:
			*f.Flag(r) = s.IntN(3) == 0 || f.Presence && s.IntN(2) == 0
		}
	}
}

// figure returns a value of the range, mostly one that is usual.
func (s shaker) figure(within diagram.Range, usual diagram.Usual) float64 {
	most := usual.Most
	if most == 0 {
		most = min(within.High, 1000)
	}
	switch within.Zero {
	case diagram.ZeroWrong:
		return s.above0(within.Low, most, within.High)
	case diagram.ZeroWithin:
		return s.place(min(within.High, 900))
	}
	return s.number(within.Low, most, within.High)
}

// system returns one of the presets in most cases, or one that says nothing.
func (s shaker) system() diagram.System {
	if s.IntN(6) == 0 {
		return diagram.System{}
	}
	return pick(s, diagram.Presets()).System
}

func (s shaker) part() diagram.Part {
	kind := pick(s, diagram.Kinds())
	p := diagram.Part{ID: s.tx.NewPartID(kind)}
	fill(s, diagram.PartFields(), &p, func(f *diagram.Field[diagram.Part]) bool { return f.Fits == nil || f.Fits(kind) })
	p.Kind, p.Span = kind, s.number(1e-3, 200, 200)
	switch {
	case p.System.Voltage != 0 && !kind.IsBoard() && s.IntN(6) > 0:
		p.System, p.Transformer.Primary = s.system(), s.system()
	case kind.IsBoard() && s.IntN(4) > 0 || kind == diagram.Junction:
		p.System = diagram.System{}
	}
	if p.Withstand.Kind == diagram.ByCategory {
		p.Withstand.Category = 1 + s.IntN(4)
	}
	if kind != diagram.Transformer {
		p.Transformer = diagram.TransformerData{}
	}
	return p
}

func hasPorts(k diagram.Kind) bool { return len(k.Ports()) > 0 }

// all returns the parts that the test accepts.
func (s shaker) all(accept func(diagram.Kind) bool) []diagram.Part {
	var out []diagram.Part
	for p := range s.tx.Document().Parts() {
		if accept(p.Kind) {
			out = append(out, p)
		}
	}
	return out
}

func (s shaker) feeder(parts []diagram.Part) {
	if len(parts) < 2 {
		return
	}
	from, to := pick(s, parts), pick(s, parts)
	if from.ID == to.ID {
		return
	}
	f := diagram.Feeder{
		ID:   s.tx.NewFeederID(),
		From: diagram.End{Part: from.ID, Port: pick(s, from.Kind.Ports())},
		To:   diagram.End{Part: to.ID, Port: pick(s, to.Kind.Ports())},
	}
	fill(s, diagram.FeederFields(), &f, nil)
	s.tx.SetFeeder(f)
}

func (s shaker) protector(hosts []diagram.Part) {
	if len(hosts) == 0 {
		return
	}
	p := diagram.Protector{ID: s.tx.NewProtectorID(), Plan: pick(s, s.tx.Document().Plans()).ID, Bus: pick(s, hosts).ID}
	fill(s, diagram.ProtectorFields(), &p, nil)
	p.Offset = s.place(40) - 20
	if s.IntN(6) > 0 {
		p.System = s.system()
	}
	s.tx.SetProtector(p)
}

// surge adds a surge case, in most cases at a part.
func (s shaker) surge() {
	parts := s.all(hasPorts)
	ids := make([]diagram.ID, len(parts))
	for i, p := range parts {
		ids[i] = p.ID
	}
	surge := diagram.Surge{ID: s.tx.NewSurgeID()}
	fill(s, diagram.SurgeFields(), &surge, nil)
	if len(ids) > 0 {
		surge.Part = maybe(s, ids)
	}
	s.tx.SetSurge(surge)
}

// aside sets a finding aside about any part, or about none.
func (s shaker) aside() {
	a := diagram.Aside{ID: s.tx.NewAsideID(), Plan: pick(s, s.tx.Document().Plans()).ID}
	fill(s, diagram.AsideFields(), &a, nil)
	a.Rule = pick(s, []string{"leads.long", "cover.not held", "x"})
	if parts := s.all(func(diagram.Kind) bool { return true }); len(parts) > 0 && s.IntN(4) > 0 {
		a.About = pick(s, parts).ID
	}
	s.tx.SetAside(a)
}

// Unlock has every plan of a document take changes: some of a random one are locked.
func Unlock(t testing.TB, doc *diagram.Document) {
	t.Helper()
	Edit(t, doc, unlock)
}

func unlock(tx *diagram.Tx) {
	for _, plan := range tx.Document().Plans() {
		plan.Locked = false
		tx.SetPlan(plan)
	}
}

// remove takes away about one part in eight with what hangs on it, moves
// about one in four, and takes away about one surge case in eight.
func (s shaker) remove() {
	for _, surge := range s.tx.Document().Surges() {
		if s.IntN(8) == 0 {
			s.tx.Remove(surge.ID)
		}
	}
	for _, p := range s.all(func(diagram.Kind) bool { return true }) {
		switch s.IntN(8) {
		case 0:
			s.tx.Remove(p.ID)
		case 1, 2:
			p.At = p.At.Add(geom.Pt(5, 5))
			s.tx.SetPart(p)
		}
	}
}
