package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// told is a finding with what became of it.
type told struct {
	analysis.Finding
	aside *diagram.Aside // nil where nobody has set it aside
}

func (w *Work) told() []told {
	var out []told
	for _, group := range analysis.Grouped(w.Result.Findings, analysis.BySubject, w.Document) {
		for _, i := range group.Members {
			out = append(out, told{Finding: w.Result.Findings[i]})
		}
	}
	for _, a := range w.Result.Aside {
		out = append(out, told{a.Finding, &a.By})
	}
	return out
}

// writeFindings writes the findings as a table.
func writeFindings(out io.Writer, w *Work, _ Format) error {
	return table.CSV(out, guarded(findingColumns(w)), w.told())
}

// layFindings lays out the findings, by subject, and the workings.
func layFindings(w *Work) (page.Frame, []page.Page, error) {
	doc := w.findings()
	return doc.Frame, doc.Pages(), nil
}

func (w *Work) findings() page.Document {
	doc := page.Document{Frame: w.frame("findings and workings · plan "+w.planName()+" · "+string(w.Result.Basis), "Findings and workings, "+SheetTitle(w.Document))}
	doc.Blocks = append(doc.Blocks, w.openFindings()...)
	doc.Blocks = append(doc.Blocks, w.asideFindings()...)
	doc.Blocks = append(doc.Blocks, w.workings()...)
	return doc
}

func findingColumns(w *Work) []table.Column[told] {
	said := func(of func(told) string) func(told) string {
		return func(f told) string { return w.said(of(f)) }
	}
	aside := func(of func(diagram.Aside) string) func(told) string {
		return func(f told) string {
			if f.aside == nil {
				return ""
			}
			return of(*f.aside)
		}
	}
	return []table.Column[told]{
		words("Severity", 0, func(f told) string { return f.Severity.String() }),
		words("Subject", 0, func(f told) string { return unit.Terms(f.Subject, w.Convention) }),
		words("About", 0, func(f told) string { return w.aboutOf(f.Finding) }),
		words("Critical", 0, func(f told) string { return map[bool]string{true: "yes"}[f.Critical] }),
		words("Finding", 0, said(func(f told) string { return f.What })),
		words("Why", 0, said(func(f told) string { return f.Why })),
		words("What to do", 0, said(func(f told) string { return f.Remedy })),
		words("Source", 0, func(f told) string { return unit.Terms(f.Source, w.Convention) }),
		words("Working", 0, func(f told) string { return strings.Join(w.steps(f.Working), "; ") }),
		words("Set aside because", 0, aside(func(a diagram.Aside) string { return a.Reason })),
		words("Set aside by", 0, aside(func(a diagram.Aside) string { return a.By })),
		words("Set aside on", 0, aside(func(a diagram.Aside) string { return a.Day })),
		words("Rule", 0, func(f told) string { return f.Rule }),
	}
}

// aboutOf names what a finding is about.
func (w *Work) aboutOf(f analysis.Finding) string {
	var names []string
	for _, id := range f.Records {
		names = append(names, w.Document.NameOf(id))
	}
	return strings.Join(names, ", ")
}

// openFindings are the findings that count, by subject.
func (w *Work) openFindings() []page.Block {
	findings := w.Result.Findings
	out := []page.Block{page.Heading{Text: "Findings"}, page.Paragraph{Text: countOf(findings)}}
	for _, group := range analysis.Grouped(findings, analysis.BySubject, w.Document) {
		title := fmt.Sprintf("%s (%d)", unit.SentenceCase(unit.Terms(group.Name, w.Convention)), len(group.Members))
		out = append(out, page.Heading{Text: title, Minor: true})
		for _, i := range group.Members {
			out = append(out, w.findingBlocks(findings[i])...)
		}
	}
	return out
}

// countOf says how many findings there are, by severity.
func countOf(findings []analysis.Finding) string {
	var counts [analysis.Error + 1]int
	for _, f := range findings {
		counts[f.Severity]++
	}
	if len(findings) == 0 {
		return "Nothing is found."
	}
	return fmt.Sprintf("%s, %s, %s; by subject, what is gravest first.", unit.CountOf(counts[analysis.Error], "error"),
		unit.CountOf(counts[analysis.Warning], "warning"), unit.CountOf(counts[analysis.Remark], "note"))
}

func (w *Work) findingBlocks(f analysis.Finding) []page.Block {
	severity := unit.SentenceCase(f.Severity.String())
	if f.Critical {
		severity += ", concerns critical equipment"
	}
	out := []page.Block{page.Together{page.Paragraph{Text: severity + ": " + w.sentence(f.What), Bold: true}, page.Pairs{
		{Key: "Why", Value: w.sentence(f.Why)}, {Key: "What to do", Value: w.sentence(f.Remedy)}, {Key: "Source", Value: unit.Terms(f.Source, w.Convention)},
	}}}
	if len(f.Working) > 0 {
		out = append(out, page.Paragraph{Text: strings.Join(w.steps(f.Working), "\n"), Faint: true})
	}
	return append(out, page.Space(1))
}

// asideFindings are those that somebody has set aside, with why and who.
func (w *Work) asideFindings() []page.Block {
	if len(w.Result.Aside) == 0 {
		return nil
	}
	out := []page.Block{page.Heading{Text: "Set aside"}, page.Paragraph{Text: "These findings were looked at, and do not count, for the reason that stands with each."}}
	for _, a := range w.Result.Aside {
		out = append(out, page.Together{page.Paragraph{Text: w.sentence(a.What), Bold: true}, page.Pairs{
			{Key: "Set aside because", Value: unit.Visible(a.By.Reason)}, {Key: "By", Value: unit.Visible(a.By.By)}, {Key: "On", Value: unit.Visible(a.By.Day)},
			{Key: "Severity", Value: a.Severity.String()}, {Key: "Why it was found", Value: w.sentence(a.Why)}, {Key: "Source", Value: unit.Terms(a.Source, w.Convention)},
		}})
	}
	return out
}

// workings say for each board and load how its worst voltage came about.
func (w *Work) workings() []page.Block {
	out := []page.Block{page.Break{}, page.Heading{Text: "How each voltage came about"},
		page.Paragraph{Text: "Of each board and load the mode that decides, from the supply downward, by the " + string(w.Result.Basis) + "."}}
	all := assess.ExplainAll(w.Document, w.Result)
	for _, part := range w.Result.Downward(w.Document) {
		level := all[part.ID].Worst()
		title := w.Document.NameOf(part.ID) + ": " + w.said(analysis.VerdictText(level))
		steps := strings.Join(w.steps(level.Working), "\n")
		out = append(out, page.Heading{Text: title, Minor: true}, page.Paragraph{Text: w.sentence(level.Why)}, page.Paragraph{Text: steps, Faint: true})
	}
	return out
}

// steps writes a working, a line for each step.
func (w *Work) steps(working analysis.Working) []string {
	var out []string
	for _, s := range working {
		out = append(out, w.step(s))
	}
	return out
}

// step writes a step in a line: what it is, the formula with its numbers, the figure,
// and where it comes from.
func (w *Work) step(s analysis.Step) string {
	line := unit.SentenceCase(w.said(s.Label)) + ": "
	switch {
	case s.Text != "":
		line += w.said(s.Text)
	default:
		for _, part := range []string{s.Formula, s.Numbers} {
			if part != "" {
				line += unit.Terms(part, w.Convention) + " = "
			}
		}
		line += w.said(analysis.FigureIn(figure(s), s.Unit))
	}
	if s.Source != "" {
		line += " [" + unit.Terms(s.Source, w.Convention) + "]"
	}
	return line
}

// figure is the figure of a step without what no estimate is worth: volts are whole.
func figure(s analysis.Step) float64 {
	if s.Unit == "V" {
		return math.Round(s.Result)
	}
	return analysis.Significant(s.Result, 4)
}
