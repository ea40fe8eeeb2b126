package compare

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// Purchase is one plan of which it is asked what its protectors buy.
type Purchase struct {
	Document *diagram.Document
	Plan     diagram.ID
	Basis    analysis.Basis
	Surges   []diagram.Surge     // of the transient; none stands for all of the sheet
	Only     []diagram.ID        // the protectors that are asked about; none stands for all
	Before   *analysis.Result    // of the plan as it is, where that is at hand; else nil
	Progress func(share float64) // told how much is solved, up to 1; may be nil
}

// Bought is what one protector of a plan buys.
type Bought struct {
	Protector diagram.ID
	Without   Effect // what changes where it is taken away

	// Short is what changes where its leads are as short as can be: cut to Length, m,
	// each, without sharp bends and slack. IsShort says that they are already.
	Short   Effect
	Length  float64
	IsShort bool
}

// Buys takes each protector away in turn, and shortens the leads of each in turn, and
// tells what that changes. It solves one variation after the other, each with all the
// processors; the outcome depends on the document alone. The engine keeps what it has
// traced and calibrated from one to the next. Errors are those of Solve.
func Buys(ctx context.Context, engine *assess.Engine, p Purchase) ([]Bought, error) {
	b := &buying{Purchase: p, ctx: ctx, engine: engine, work: course{tell: p.Progress}}
	asked := b.asked()
	b.count(asked)
	if err := b.begin(); err != nil {
		return nil, err
	}
	var out []Bought
	for _, protector := range asked {
		found, err := b.buys(protector)
		if err != nil {
			return nil, err
		}
		out = append(out, found)
	}
	return out, nil
}

// buying is the work under way.
type buying struct {
	Purchase
	ctx    context.Context
	engine *assess.Engine
	work   course
}

// asked returns the protectors that are asked about, in the order of their ids.
func (b *buying) asked() []diagram.Protector {
	wanted := map[diagram.ID]bool{}
	for _, id := range b.Only {
		wanted[id] = true
	}
	var out []diagram.Protector
	for p := range b.Document.ProtectorsOf(b.Plan) {
		if len(b.Only) == 0 || wanted[p.ID] {
			out = append(out, p)
		}
	}
	return out
}

// count tells how many solutions there will be.
func (b *buying) count(asked []diagram.Protector) {
	b.work.of = len(asked)
	if !b.isKnown() {
		b.work.of++
	}
	for _, p := range asked {
		if _, longer := b.straight(p); longer {
			b.work.of++
		}
	}
}

func (b *buying) isKnown() bool { return isWhole(b.Before) && b.Before.Basis == b.Basis }

// begin solves the plan as it is, unless that is at hand.
func (b *buying) begin() error {
	if b.isKnown() {
		return nil
	}
	result, err := b.solve(b.Document)
	b.Before = result
	return err
}

func (b *buying) solve(doc *diagram.Document) (*analysis.Result, error) {
	return b.work.solve(b.ctx, b.engine, doc, b.Plan, b.Basis, b.Surges)
}

func (b *buying) buys(p diagram.Protector) (Bought, error) {
	out := Bought{Protector: p.ID}
	after, err := b.altered(func(tx *diagram.Tx) { tx.Remove(p.ID) })
	if err != nil {
		return Bought{}, err
	}
	out.Without = effect(b.Document, b.Before, after, p.ID)
	short, longer := b.straight(p)
	out.Length, out.IsShort = lead.Shortest(&p, b.Document.FollowsIEC()), !longer
	if !longer {
		return out, nil
	}
	if after, err = b.altered(func(tx *diagram.Tx) { tx.SetProtector(short) }); err != nil {
		return Bought{}, err
	}
	out.Short = effect(b.Document, b.Before, after, p.ID)
	return out, nil
}

// straight returns a protector with leads as short as can be, and whether that alters
// them.
func (b *buying) straight(p diagram.Protector) (diagram.Protector, bool) {
	short := p
	lead.Straighten(&short, lead.Shortest(&p, b.Document.FollowsIEC()))
	return short, short != p
}

// altered solves the document with a change.
func (b *buying) altered(change func(*diagram.Tx)) (*analysis.Result, error) {
	doc, err := altered(b.Document, b.Plan, change)
	if err != nil {
		return nil, err
	}
	return b.solve(doc)
}

// altered returns a document with a change of a plan. A lock keeps the plan of the sheet
// as it is, not what is asked about it.
func altered(doc *diagram.Document, plan diagram.ID, change func(*diagram.Tx)) (*diagram.Document, error) {
	out := doc.Snapshot()
	_, err := out.Edit(func(tx *diagram.Tx) error {
		if p, ok := doc.Plan(plan); ok && p.Locked {
			p.Locked = false
			tx.SetPlan(p)
		}
		change(tx)
		return nil
	})
	return out, err
}

// Bare returns the document without the protectors of a plan.
func Bare(doc *diagram.Document, plan diagram.ID) (*diagram.Document, error) {
	return altered(doc, plan, func(tx *diagram.Tx) {
		for p := range doc.ProtectorsOf(plan) {
			tx.Remove(p.ID)
		}
	})
}
