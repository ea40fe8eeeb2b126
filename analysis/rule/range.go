package rule

import (
	"context"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
)

// stated is a figure of a record.
type stated struct {
	figure diagram.Figure
	value  float64
	of     string // what of the record has it, before the noun: "primary", "phase"; or nothing
}

// unusualOf notes the figures of a record that lie outside what is usual: more
// often than not a unit or a digit is wrong. The form marks them by the same
// table.
func (s *sheet) unusualOf(id diagram.ID, subject string, figures []stated) []analysis.Finding {
	var out []analysis.Finding
	name := s.Document.NameOf(id)
	if rest, unnamed := strings.CutPrefix(name, "feeder "); unnamed {
		name = "Feeder " + rest
	}
	if surge, ok := s.Document.Surge(id); ok {
		name = "The surge case “" + analysis.SurgeName(s.Document, surge) + "”"
	}
	for _, f := range figures {
		usual := f.figure.Usual()
		mark := usual.Mark(f.value, s.convention())
		if mark == "" {
			continue
		}
		noun := usual.Noun
		if f.of != "" {
			noun = f.of + " " + noun
		}
		finding := analysis.Finding{
			Severity: analysis.Remark, Subject: subject, Records: []diagram.ID{id},
			What: name + " has an unusual " + noun + ": " + mark,
			Why:  "usual is " + usual.Range(s.convention()) + "; a unit or a digit may be wrong", Remedy: "see whether the figure and its unit are right", Source: usual.Source,
		}
		if f.value == 0 {
			finding.Severity = analysis.Warning
			finding.What = name + " has no " + noun + ": its distance counts as none, and so does what it adds"
			finding.Why, finding.Remedy = "an unknown length taken as 0 is the best case", "enter its length"
		}
		out = append(out, finding)
	}
	return out
}

// unusual notes the unusual figures of the whole sheet, until the context ends.
func (s *sheet) unusual(ctx context.Context) []analysis.Finding {
	var out []analysis.Finding
	for part := range s.Document.Parts() {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(part.ID, subjectOf(part.Kind), partFigures(part))...)
	}
	for feeder := range s.Document.Feeders() {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(feeder.ID, analysis.SubjectFeeder, figuresOf(diagram.FeederFields(), feeder, nil))...)
	}
	for protector := range s.Document.ProtectorsOf(s.Plan) {
		if ctx.Err() != nil {
			return nil
		}
		out = append(out, s.unusualOf(protector.ID, analysis.SubjectNameplate, protectorFigures(protector))...)
	}
	for _, surge := range s.Document.Surges() {
		for _, f := range s.unusualOf(surge.ID, analysis.SubjectSupply, figuresOf(diagram.SurgeFields(), surge, nil)) {
			f.Records = []diagram.ID{s.arrival(surge)}
			out = append(out, f)
		}
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

func subjectOf(kind diagram.Kind) string {
	switch {
	case kind.IsSource():
		return analysis.SubjectSupply
	case kind == diagram.Transformer:
		return analysis.SubjectTransformer
	}
	return analysis.SubjectNameplate
}

// figuresOf returns the figures of a record of which a usual range is known, of
// those fields that it has.
func figuresOf[R any](fields []diagram.Field[R], r R, has func(*diagram.Field[R]) bool) []stated {
	var out []stated
	for i := range fields {
		f := &fields[i]
		if figure := f.UsualOf(&r); figure != diagram.NoFigure && (has == nil || has(f)) {
			out = append(out, stated{figure, *f.Number(&r), f.Of})
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
