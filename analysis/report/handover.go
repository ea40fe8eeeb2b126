package report

import (
	"context"
	"errors"
	"io"
	"slices"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// Deliverable is something that is handed over: the drawing apart, all that there is.
type Deliverable struct {
	Name    string   // in a command and in the name of a file: "schedule"
	Title   string   // at the head of a page
	About   string   // what it is and for whom, in a sentence
	Formats []Format // the first of them is the usual one
	Takes   Takes    // what has to be solved for it besides the plan

	lay   func(*Work) (page.Frame, []page.Page, error) // as it is printed; nil for what is not
	write func(io.Writer, *Work, Format) error         // in another format
}

// Takes is what a deliverable tells of besides its plan.
type Takes struct {
	Before    bool // what the plan begins with
	Plans     bool // every plan of the sheet
	Purchases bool // what each protector buys
}

// Deliverables returns every one, in the order of a list to pick from.
func Deliverables() []Deliverable {
	return []Deliverable{
		{
			Name: "schedule", Title: "Schedule of protectors", Formats: []Format{XLSX, CSV}, write: writeSchedule,
			About: "each protector of a plan with its ratings, breaker and leads, and the quantities to buy",
		},
		{
			Name: "proposal", Title: "Proposal", Formats: []Format{PDF}, lay: layProposal, Takes: Takes{Before: true, Plans: true, Purchases: true},
			About: "for an owner: what is at risk, what is proposed, what it costs and what each step buys",
		},
		{
			Name: "worksheets", Title: "Work sheets", Formats: []Format{PDF}, lay: layWorkSheets, Takes: Takes{Before: true},
			About: "for the crew, a sheet for each board at which something is done: breaker, leads, order of work, checks",
		},
		{
			Name: "findings", Title: "Findings and workings", Formats: []Format{PDF, CSV}, lay: layFindings, write: writeFindings,
			About: "what is wrong or doubtful, by subject, and how each figure came about",
		},
	}
}

// FormatOf returns the format of the deliverable that the ending of the path names.
func (d Deliverable) FormatOf(path string) (Format, error) { return formatOf(path, d.Formats) }

// Endings lists the endings of its formats within a sentence.
func (d Deliverable) Endings() string { return endings(d.Formats) }

// Write writes the deliverable of a work that was solved for it. What the work has
// nothing for, such as a proposal of the building as found, is an error that says so.
func (d Deliverable) Write(w io.Writer, work *Work, format Format) error {
	if !slices.Contains(d.Formats, format) {
		return errors.New("the " + d.Name + " is not written as " + format.name() + "; use " + d.Endings())
	}
	if format != PDF {
		return d.write(w, work, format)
	}
	frame, pages, err := d.lay(work)
	if err != nil {
		return err
	}
	return page.WritePDF(w, frame, pages, work.Date)
}

// Pages returns the pages that are printed, none of what is a table for a spreadsheet.
// Errors are those of Write.
func (d Deliverable) Pages(work *Work) ([]page.Page, error) {
	if d.lay == nil {
		return nil, nil
	}
	_, pages, err := d.lay(work)
	return pages, err
}

// Work is one plan of a sheet that is handed over, and what was solved for that.
type Work struct {
	Document   *diagram.Document
	Result     *analysis.Result // of the plan, on the basis that all of it is told on
	Convention unit.Convention
	Paper      page.Paper // without a name what is usual
	Date       time.Time  // of issue, and of the file; the zero time leaves both to the sheet

	Before *State           // what the plan begins with; nil where nobody asked
	After  *State           // what it comes to; nil likewise
	Plans  *compare.Table   // every plan; nil likewise
	Bought []compare.Bought // what each protector buys; empty likewise
}

// State is a building with what protects it.
type State struct {
	Document *diagram.Document
	Result   *analysis.Result

	causes map[diagram.ID]analysis.BusResult // by the hand rule, which names causes, with workings
}

// Solve finds what a deliverable takes besides the result of its plan. The error is
// that of the engine.
func (w *Work) Solve(ctx context.Context, engine *assess.Engine, takes Takes, progress func(share float64)) error {
	in := compare.Input{Document: w.Document, Plans: []diagram.ID{w.Result.Plan}, Basis: w.Result.Basis, Progress: progress}
	in.Known = map[diagram.ID]*analysis.Result{w.Result.Plan: w.Result}
	if takes.Plans {
		in.Plans = compare.All(w.Document)
	}
	if takes.Before && w.hasFound() && !takes.Plans {
		in.Plans = append([]diagram.ID{w.Document.Plans()[0].ID}, in.Plans...)
	}
	in, err := compare.Solve(ctx, engine, in)
	if err != nil {
		return err
	}
	if takes.Plans {
		w.Plans = in.Table()
	}
	if takes.Before {
		if err := w.begin(ctx, engine, in); err != nil {
			return err
		}
		w.After = &State{Document: w.Document, Result: w.Result}
		for _, s := range []*State{w.Before, w.After} {
			if err := s.findCauses(ctx, engine); err != nil {
				return err
			}
		}
	}
	if takes.Purchases {
		w.Bought, err = compare.Buys(ctx, engine, compare.Purchase{Document: w.Document, Plan: w.Result.Plan, Basis: w.Result.Basis, Before: w.Result, Progress: progress})
	}
	return err
}

// hasFound reports whether another plan records the building as found.
func (w *Work) hasFound() bool {
	plans := w.Document.Plans()
	return len(plans) > 1 && plans[0].ID != w.Result.Plan
}

// begin finds the state that the plan begins with: the building as found, or, where
// the sheet has no other plan, the building without protectors.
func (w *Work) begin(ctx context.Context, engine *assess.Engine, in compare.Input) error {
	if w.hasFound() {
		w.Before = &State{Document: w.Document, Result: in.Known[w.Document.Plans()[0].ID]}
		return nil
	}
	if w.records() {
		w.Before = &State{Document: w.Document, Result: w.Result}
		return nil
	}
	bare, err := compare.Bare(w.Document, w.Result.Plan)
	if err != nil {
		return err
	}
	without := compare.Input{Document: bare, Plans: []diagram.ID{w.Result.Plan}, Basis: w.Result.Basis}
	if without, err = compare.Solve(ctx, engine, without); err != nil {
		return err
	}
	w.Before = &State{Document: bare, Result: without.Known[w.Result.Plan]}
	return nil
}

// findCauses judges the state by the hand rule, where that is not done, and explains it.
func (s *State) findCauses(ctx context.Context, engine *assess.Engine) error {
	hand := s.Result
	if hand.Basis != analysis.HandRule {
		var err error
		if hand, err = engine.HandRule(ctx, s.Document, s.Result.Plan); err != nil {
			return err
		}
	}
	s.causes = assess.ExplainAll(s.Document, hand)
	return ctx.Err()
}

// records reports whether the plan records the building as found: nothing is done then.
func (w *Work) records() bool {
	plans := w.Document.Plans()
	return len(plans) > 1 && plans[0].ID == w.Result.Plan
}

// errRecords says what to do about that.
func (w *Work) errRecords(what string) error {
	return errors.New("plan " + w.planName() + " records the building as found, so that there is no work in it; choose another plan for the " + what)
}

func (w *Work) planName() string { return unit.Visible(w.Document.NameOf(w.Result.Plan)) }

// said words a text of the analysis in the convention of the work.
func (w *Work) said(text string) string { return unit.Words(text, w.Convention) }

// sentence is said, as a sentence that stands by itself.
func (w *Work) sentence(text string) string {
	out := unit.SentenceCase(w.said(text))
	if out == "" || out[len(out)-1] == '.' || out[len(out)-1] == ':' {
		return out
	}
	return out + "."
}

// frame returns what is alike on all pages.
func (w *Work) frame(kind, title string) page.Frame {
	paper := w.Paper
	if paper.Name == "" {
		paper = page.Usual(w.Convention)
	}
	return page.Frame{Paper: paper, Head: w.head(kind, title), Caution: mark.Caution, Palette: Light()}
}

func (w *Work) head(kind, title string) page.Head {
	return headOf(w.Document.Info(), kind, title, w.Date)
}

// voltage, current and leadLength write quantities in the units of the convention, a
// lead as it is measured with a rule.
func (w *Work) voltage(v float64) string { return unit.Format(v, unit.Voltage, w.Convention) }
func (w *Work) current(a float64) string { return unit.Format(a, unit.Current, w.Convention) }
func (w *Work) kilo(a float64) string    { return unit.Format(a, unit.LargeCurrent, w.Convention) }
func (w *Work) leadLength(m float64) string {
	if w.Convention == unit.IEC {
		return analysis.FigureIn(w.inRule(m), "mm")
	}
	return analysis.FigureIn(w.inRule(m), "in")
}

// mode is the trade's short form of a mode in the convention.
func (w *Work) mode(m diagram.Mode) string { return unit.ModeWord(m.String(), w.Convention) }

// earth is what the convention calls the earth.
func (w *Work) earth() string { return unit.EarthWord(w.Convention) }
