package rule

import (
	"context"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// stated is a figure of a record.
type stated struct {
	key    string // of its field
	figure diagram.Figure
	value  float64
	of     string // what of the record has it, before the noun: "primary", "phase"; or nothing
}

func (f stated) noun() string { return strings.TrimLeft(f.of+" "+f.figure.Usual().Noun, " ") }

// figures are those of a record that lie outside what is usual.
type figures struct {
	*sheet
	record diagram.ID
	shown  diagram.ID // the record at which what is found is told
	all    []stated
}

// figureRules note the figures of a group of records that lie outside what is
// usual: more often than not a unit or a digit is wrong. The form marks them by the
// same table.
func figureRules(subject, id string) []record[figures] {
	return about(subject, tells(id, figures.unusual, sayUnusual))
}

// partFigureRules are those on parts of a kind.
func partFigureRules(kind diagram.Kind) []record[figures] {
	switch {
	case kind.IsSource():
		return figureRules(analysis.SubjectSupply, "figures.source")
	case kind == diagram.Transformer:
		return figureRules(analysis.SubjectTransformer, "figures.transformer")
	}
	return figureRules(analysis.SubjectNameplate, "figures.part")
}

func feederFigureRules() []record[figures] {
	return about(analysis.SubjectFeeder,
		tells("figures.feeder", figures.unusual, sayUnusual),
		tells("feeder.no length", figures.missing, sayMissing),
	)
}

// outside returns the figures that are 0, or the others.
func (r figures) outside(zero bool) []stated {
	return slices.DeleteFunc(slices.Clone(r.all), func(f stated) bool { return (f.value == 0) != zero })
}

func (r figures) unusual() []stated { return r.outside(false) }

// missing returns the figures that may not be 0.
func (r figures) missing() []stated { return r.outside(true) }

func sayUnusual(r figures, f stated) said {
	usual := f.figure.Usual()
	return said{
		severity: analysis.Remark, records: []diagram.ID{r.shown}, detail: r.detail(f),
		what:   r.name() + " has an unusual " + f.noun() + ": " + usual.Mark(f.value, r.convention()),
		why:    "usual is " + usual.Range(r.convention()) + "; a unit or a digit may be wrong",
		remedy: "see whether the figure and its unit are right",
		source: usual.Source,
	}
}

func sayMissing(r figures, f stated) said {
	return said{
		severity: analysis.Warning, records: []diagram.ID{r.shown}, detail: r.detail(f),
		what:   r.name() + " has no " + f.noun() + ": its distance counts as none, and so does what it adds",
		why:    "an unknown length taken as 0 is the best case",
		remedy: "enter its length",
		source: f.figure.Usual().Source,
	}
}

// detail names the field, and the record where others are shown at the same.
func (r figures) detail(f stated) string {
	if r.shown != r.record {
		return string(r.record) + " " + f.key
	}
	return f.key
}

// name returns the record as a sentence begins with it.
func (r figures) name() string {
	if surge, ok := r.Document.Surge(r.record); ok {
		return "The surge case “" + analysis.SurgeName(r.Document, surge) + "”"
	}
	name := r.Document.NameOf(r.record)
	if rest, unnamed := strings.CutPrefix(name, "feeder "); unnamed {
		return "Feeder " + rest
	}
	return name
}

// unusual notes the unusual figures of the whole sheet, until the context ends.
func (s *sheet) unusual(ctx context.Context) []analysis.Finding {
	var out []analysis.Finding
	look := func(rules func() []record[figures], record, shown diagram.ID, all []stated) (goOn bool) {
		if len(all) > 0 { // of most records none is
			out = append(out, found(rules(), figures{s, record, shown, all})...)
		}
		return ctx.Err() == nil
	}
	of := func(subject, id string) func() []record[figures] {
		return func() []record[figures] { return figureRules(subject, id) }
	}
	for part := range s.Document.Parts() {
		if !look(func() []record[figures] { return partFigureRules(part.Kind) }, part.ID, part.ID, partFigures(part)) {
			return nil
		}
	}
	for feeder := range s.Document.Feeders() {
		if !look(feederFigureRules, feeder.ID, feeder.ID, figuresOf(diagram.FeederFields(), feeder, nil)) {
			return nil
		}
	}
	for protector := range s.Document.ProtectorsOf(s.Plan) {
		if !look(of(analysis.SubjectNameplate, "figures.protector"), protector.ID, protector.ID, protectorFigures(protector)) {
			return nil
		}
	}
	for _, surge := range s.Document.Surges() {
		look(of(analysis.SubjectSupply, "figures.surge case"), surge.ID, s.arrival(surge), figuresOf(diagram.SurgeFields(), surge, nil))
	}
	return out
}

// arrival returns the record at which a surge case is shown, which has no place
// of its own on the sheet: the part at which it arrives, or else a source.
func (s *sheet) arrival(surge diagram.Surge) diagram.ID {
	if surge.Part != "" {
		return surge.Part
	}
	for part := range s.Document.Parts() {
		if part.Kind.IsSource() {
			return part.ID
		}
	}
	return surge.ID
}

// figuresOf returns the figures of a record that lie outside what is usual, of those
// fields that it has.
func figuresOf[R any](fields []diagram.Field[R], r R, has func(*diagram.Field[R]) bool) []stated {
	var out []stated
	for i := range fields {
		f := &fields[i]
		figure := f.UsualOf(&r)
		if figure == diagram.NoFigure || has != nil && !has(f) {
			continue
		}
		if v := *f.Number(&r); figure.Usual().Outside(v) {
			out = append(out, stated{f.Key, figure, v, f.Of})
		}
	}
	return out
}

func partFigures(p diagram.Part) []stated {
	return figuresOf(diagram.PartFields(), p, func(f *diagram.Field[diagram.Part]) bool { return f.Fits == nil || f.Fits(p.Kind) })
}

// protectorFigures leaves out a VPR, of which the nameplate rules say that no
// listing gives it.
func protectorFigures(p diagram.Protector) []stated {
	byUp := p.Rating == diagram.Up || isIEC(p.Type)
	return figuresOf(diagram.ProtectorFields(), p, func(f *diagram.Field[diagram.Protector]) bool { return byUp || f.Figure != diagram.UsualLevel })
}
