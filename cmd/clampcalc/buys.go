package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const buysLong = `buys tells what each protector of a plan buys: it takes each one away in turn, and says
which buses and equipment then have another verdict. Where none has, it says what else
gets worse, as far as that is computed: other modes, voltages within their verdict,
what other protectors have to take of the surge, findings that arise. And it tells what
its leads would buy if they were straight and as short as can usually be.

With --basis transient each of these is solved; that takes as long as levels does, two
times for each protector.

`

func buysCommand() *cobra.Command {
	var from source
	var asJSON, asCSV bool
	cmd := &cobra.Command{
		Use:     "buys FILE",
		Short:   "tell what each protector of a plan buys",
		Long:    buysLong + arrayHelp("protector", table.Help(boughtColumns(sheet{}, ""))) + statuses,
		Example: "  clampcalc buys tern-quay.clampline --plan \"Upgrade A\"\n  clampcalc buys tern-quay.clampline --plan \"Upgrade A\" --basis transient --json",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if asJSON && asCSV {
				return usageError("buys: --json and --csv exclude each other")
			}
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			bought, err := buys(cmd, s)
			switch out := cmd.OutOrStdout(); {
			case err != nil:
				return err
			case asJSON:
				return writeJSON(out, table.Records(boughtColumns(s, s.result.Basis), bought))
			case asCSV:
				return wrapFile(table.CSV(out, effectColumns(s), effectsOf(bought)))
			default:
				return writeBought(out, s, bought)
			}
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print CSV: a line for each verdict that changes")
	return cmd
}

// buys finds what each protector buys.
func buys(cmd *cobra.Command, s sheet) ([]compare.Bought, error) {
	p := compare.Purchase{Document: s.doc, Plan: s.plan.ID, Basis: s.result.Basis, Before: s.result}
	if isTerminal(os.Stderr) {
		p.Progress = shares(cmd.ErrOrStderr())
	}
	out, err := compare.Buys(cmd.Context(), s.engine(), p)
	if err != nil {
		return nil, s.refusal(err)
	}
	return out, nil
}

func writeBought(out io.Writer, s sheet, all []compare.Bought) error {
	fmt.Fprintf(out, "%s, plan %s: what each protector buys, by the %s\n", report.SheetTitle(s.doc), planName(s, s.plan.ID), s.result.Basis)
	if len(all) == 0 {
		fmt.Fprintln(out, "\nthe plan has no protector")
	}
	for _, b := range all {
		writeOneBought(out, s, b)
	}
	_, err := fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

// writeOneBought writes what one protector buys, below its name.
func writeOneBought(out io.Writer, s sheet, b compare.Bought) {
	p, _ := s.doc.Protector(b.Protector)
	fmt.Fprintf(out, "\n%s on %s%s\n", s.doc.NameOf(p.ID), s.doc.NameOf(p.Bus), costOfOne(s, p))
	for _, line := range b.Lines(s.doc, s.result.Basis) {
		text := hanging(unit.SentenceCase(unit.Words(line.Text, s.convention)))
		if line.Under {
			text = "  " + strings.ReplaceAll(text, "\n", "\n    ")
		}
		fmt.Fprintln(out, "  "+text)
	}
}

// costOfOne is the price of a protector and its labour, where either is stated.
func costOfOne(s sheet, p diagram.Protector) string {
	out := ""
	if p.Price > 0 {
		out += ", " + compare.Sum(p.Price, s.doc.Info().Costs.Currency)
	}
	if p.Hours > 0 {
		out += ", " + analysis.FigureIn(p.Hours, "h")
	}
	return out
}

// boughtColumns is what is told of each protector.
func boughtColumns(s sheet, basis analysis.Basis) []table.Column[compare.Bought] {
	of := func(b compare.Bought) diagram.Protector { p, _ := s.doc.Protector(b.Protector); return p }
	said := func(words []string) []string {
		out := []string{}
		for _, w := range words {
			out = append(out, unit.Words(w, s.convention))
		}
		return out
	}
	changes := func(name, help string, of func(compare.Bought) []compare.Change) table.Column[compare.Bought] {
		return table.Column[compare.Bought]{Name: name, Help: help, Value: func(b compare.Bought) any { return table.Records(changeColumns(s), of(b)) }}
	}
	return []table.Column[compare.Bought]{
		text("id", "", func(b compare.Bought) string { return string(b.Protector) }),
		text("name", "", func(b compare.Bought) string { return of(b).Name }),
		text("bus", "id of the part that it is on", func(b compare.Bought) string { return string(of(b).Bus) }),
		{Name: "price", Help: "null where not known, as labour", Value: func(b compare.Bought) any { return roundedOrNil(of(b).Price) }},
		{Name: "hours", Help: "of labour", Value: func(b compare.Bought) any { return roundedOrNil(of(b).Hours) }},
		text("basis", "hand rule or transient", func(compare.Bought) string { return string(basis) }),
		{Name: "lost", Help: "how many have a worse verdict without it", Value: func(b compare.Bought) any { return b.Without.Lost() }},
		{Name: "gained", Help: "how many a better one", Value: func(b compare.Bought) any { return b.Without.Gained() }},
		changes("without", "an array of the verdicts that change: "+table.Help(changeColumns(sheet{})), func(b compare.Bought) []compare.Change { return b.Without.Verdicts }),
		{Name: "reasons", Help: "an array of sentences: what else gets worse without it", Value: func(b compare.Bought) any { return said(b.Reasons(s.doc, basis)) }},
		changes("shortLeads", "an array likewise, of the verdicts that change with leads as short as can be", func(b compare.Bought) []compare.Change { return b.Short.Verdicts }),
		text("leads", "what such leads do, in a sentence", func(b compare.Bought) string { return unit.Words(b.ShortLeads(s.doc), s.convention) }),
	}
}

// changeColumns is what is told of each verdict that changes.
func changeColumns(s sheet) []table.Column[compare.Change] {
	level := func(name string, of func(compare.Change) analysis.Level) table.Column[compare.Change] {
		return table.Column[compare.Change]{Name: name, Help: "an object: " + table.Help(outcomeColumns()), Value: func(c compare.Change) any {
			return table.RecordOf(outcomeColumns(), of(c))
		}}
	}
	return append(placeColumns(s), level("before", beforeOf), level("after", afterOf))
}

func beforeOf(c compare.Change) analysis.Level { return c.Before }
func afterOf(c compare.Change) analysis.Level  { return c.After }

// placeColumns say where a verdict changes.
func placeColumns(s sheet) []table.Column[compare.Change] {
	return []table.Column[compare.Change]{
		text("id", "of the bus or load", func(c compare.Change) string { return string(c.Part) }),
		text("name", "", func(c compare.Change) string { return s.doc.NameOf(c.Part) }),
		{Name: "critical", Value: func(c compare.Change) any { return c.Critical }},
	}
}

// outcomeColumns are the figures of a level.
func outcomeColumns() []table.Column[analysis.Level] {
	return []table.Column[analysis.Level]{
		text("mode", "", func(l analysis.Level) string { return l.Mode.String() }),
		{Name: "volts", Help: "null where not known", Value: func(l analysis.Level) any {
			if l.Known {
				return rounded(l.Volts)
			}
			return nil
		}},
		text("verdict", "", func(l analysis.Level) string { return l.Verdict.String() }),
	}
}

// effectLine is one verdict that changes, with what changes it.
type effectLine struct {
	protector diagram.ID
	change    string // "taken away" or "short leads"
	compare.Change
}

func effectsOf(all []compare.Bought) []effectLine {
	var out []effectLine
	for _, b := range all {
		for _, c := range b.Without.Verdicts {
			out = append(out, effectLine{b.Protector, "taken away", c})
		}
		for _, c := range b.Short.Verdicts {
			out = append(out, effectLine{b.Protector, "short leads", c})
		}
	}
	return out
}

// effectColumns are those of a CSV, with the modes in the words of the convention.
func effectColumns(s sheet) []table.Column[effectLine] {
	out := []table.Column[effectLine]{
		text("protector", "", func(e effectLine) string { return string(e.protector) }),
		text("protectorName", "", func(e effectLine) string { return s.doc.NameOf(e.protector) }),
		text("change", "", func(e effectLine) string { return e.change }),
	}
	for _, c := range placeColumns(s) {
		out = append(out, table.Column[effectLine]{Name: c.Name, Value: func(e effectLine) any { return c.Value(e.Change) }})
	}
	for _, of := range []struct {
		name  string
		level func(compare.Change) analysis.Level
	}{{"Before", beforeOf}, {"After", afterOf}} {
		for _, c := range spoken(s, outcomeColumns()) {
			out = append(out, table.Column[effectLine]{Name: c.Name + of.name, Value: func(e effectLine) any { return c.Value(of.level(e.Change)) }})
		}
	}
	return out
}
