package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/fault"
	"clampline/analysis/report"
	"clampline/analysis/survey"
	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// soakTargets returns what the soak tries, each a small function.
func soakTargets() []soakTarget {
	return []soakTarget{
		{"everything", everything},
		{"extreme values", extremeValues},
		{"hostile sheet", hostileSheet},
		{"damaged library", damagedLibrary},
		{"edits with undo", editsWithUndo},
		{"surge", surgeOnRandom},
		{"surge on a demo", surgeOnDemo},
		{"drawing", drawing},
		{"handed over", handedOver},
		{"survey", surveyTable},
	}
}

// anySheet returns a random sheet of up to 60 parts that holds whatever a sheet can.
func anySheet(rng *rand.Rand) *diagram.Document { return diagramtest.Random(rng, 1+rng.IntN(60)) }

// everything judges every plan of a sheet by hand and explains all of it.
func everything(rng *rand.Rand) soakCase { return sheetCase(anySheet(rng), judgeAll) }

func judgeAll(doc *diagram.Document) error { return judgeWith(doc, printAll) }

// judgeNumbers is judgeAll for a sheet whose names may look like numbers.
func judgeNumbers(doc *diagram.Document) error {
	return judgeWith(doc, func(*diagram.Document, diagram.Plan, *analysis.Result) error { return nil })
}

func judgeWith(doc *diagram.Document, look func(*diagram.Document, diagram.Plan, *analysis.Result) error) error {
	for _, plan := range doc.Plans() {
		result, err := assess.Run(context.Background(), doc, plan.ID)
		if err != nil {
			return err
		}
		if err := cmp.Or(infinityOf(diagramtest.Absurd(result)), explainAll(doc, result), look(doc, plan, result)); err != nil {
			return err
		}
	}
	return nil
}

func explainAll(doc *diagram.Document, result *analysis.Result) error {
	for id := range result.Buses {
		explained, _ := assess.Explain(doc, result, id)
		if found := diagramtest.Absurd(explained); found != "" {
			return infinity(string(id) + found)
		}
	}
	for at := range result.Faults {
		explained, _ := fault.Explain(doc, result.Topology, at)
		if found := diagramtest.Absurd(explained); found != "" {
			return infinity(fmt.Sprint(at) + found)
		}
	}
	return nil
}

// printAll looks at the texts that leave the program.
func printAll(doc *diagram.Document, plan diagram.Plan, result *analysis.Result) error {
	var out strings.Builder
	s := sheet{doc: doc, plan: plan, convention: unit.IEC, result: result}
	if err := writeJSON(&out, findingsOf(s, result.Findings)); err != nil {
		return err
	}
	return infinityOf(diagramtest.AbsurdText(out.String()))
}

// extremeValues sets one number of a sheet to each extreme in turn; what the
// sheet takes must be judged as any other.
func extremeValues(rng *rand.Rand) soakCase {
	doc := diagramtest.Random(rng, 1+rng.IntN(12))
	numbers := diagramtest.Numbers(doc)
	n := numbers[rng.IntN(len(numbers))]
	return sheetCase(doc, func(doc *diagram.Document) error {
		for _, to := range diagramtest.Extremes() {
			changed, err := n.Set(doc, to)
			var invalid *diagram.InvalidError
			switch {
			case err == nil:
				err = judgeAll(changed)
			case errors.As(err, &invalid) && invalid.Problems[0].Remedy != "":
				err = nil
			}
			if err != nil {
				return fmt.Errorf("%s%s set to %g: %w", n.ID, n.Path, to, err)
			}
		}
		return nil
	})
}

// mutated returns a text with some of its bytes changed, doubled, moved or
// taken away.
func mutated(rng *rand.Rand, text []byte) []byte {
	out := bytes.Clone(text)
	for range 1 + rng.IntN(8) {
		if len(out) < 2 {
			break
		}
		at := rng.IntN(len(out))
		to := min(len(out), at+1+rng.IntN(40))
		switch rng.IntN(4) {
		case 0:
			out[at] = byte(rng.IntN(256))
		case 1:
			out = append(out[:at], out[to:]...)
		case 2:
			out = append(out[:to], append(bytes.Clone(out[at:to]), out[to:]...)...)
		default:
			word := []string{"1e309", "-1", "null", "[[[[", `"`, "5e-324", "{}", "\\ud800", "true"}[rng.IntN(9)]
			out = append(out[:at], append([]byte(word), out[at:]...)...)
		}
	}
	return out
}

// hostileSheet reads a sheet that was damaged: it is refused as such, or comes
// back as it was read and can be judged.
func hostileSheet(rng *rand.Rand) soakCase {
	text := mutated(rng, sheetCase(diagramtest.Random(rng, 1+rng.IntN(8)), judgeAll).kept)
	return soakCase{text, file.Extension, func() error {
		doc, err := file.Read(bytes.NewReader(text))
		var refused *file.Error
		var several file.Errors
		switch {
		case errors.As(err, &refused), errors.As(err, &several):
			return nil
		case err != nil:
			return err
		}
		return judgeNumbers(doc)
	}}
}

// damagedLibrary reads a library that was damaged: it is refused as such, or
// comes back as it was read.
func damagedLibrary(rng *rand.Rand) soakCase {
	text := mutated(rng, assets.Protectors())
	return soakCase{text, ".json", func() error {
		library, err := file.ReadLibrary(bytes.NewReader(text))
		var refused *file.Error
		if err != nil {
			if !errors.As(err, &refused) {
				return fmt.Errorf("refused by %T: %w", err, err)
			}
			return nil
		}
		var first, second strings.Builder
		if err := file.WriteLibrary(&first, library); err != nil {
			return err
		}
		again, err := file.ReadLibrary(strings.NewReader(first.String()))
		if err != nil {
			return err
		}
		if err := file.WriteLibrary(&second, again); err != nil || first.String() != second.String() {
			return fmt.Errorf("it changed on its way: %v", err)
		}
		return nil
	}}
}

// editsWithUndo changes a sheet again and again, takes all back, and does it
// again.
func editsWithUndo(rng *rand.Rand) soakCase {
	doc := anySheet(rng)
	return sheetCase(doc.Snapshot(), func(*diagram.Document) error {
		texts := []string{textOf(doc)}
		var changes []diagram.Change
		for range 6 {
			changes = append(changes, diagramtest.Shake(rng, doc, rng.IntN(6)))
			texts = append(texts, textOf(doc))
		}
		for i := len(changes) - 1; i >= 0; i-- {
			doc.Apply(changes[i].Inverse())
			if textOf(doc) != texts[i] {
				return fmt.Errorf("change %d, taken back, does not lead to the sheet before", i)
			}
		}
		for i, change := range changes {
			doc.Apply(change)
			if textOf(doc) != texts[i+1] {
				return fmt.Errorf("change %d, done again, does not lead to the sheet after", i)
			}
		}
		return judgeAll(doc)
	})
}

func textOf(doc *diagram.Document) string {
	var out strings.Builder
	if err := file.Write(&out, doc); err != nil {
		return err.Error()
	}
	return out.String()
}

// surgeOnRandom solves the surge cases of a small random sheet.
func surgeOnRandom(rng *rand.Rand) soakCase {
	return sheetCase(diagramtest.Random(rng, 1+rng.IntN(16)), solveOne)
}

// surgeOnDemo solves those of a demo that was changed a little.
func surgeOnDemo(rng *rand.Rand) soakCase {
	demos := assets.Demos()
	doc, err := file.Read(strings.NewReader(demos[rng.IntN(len(demos))].Text))
	if err != nil {
		return soakCase{work: func() error { return err }}
	}
	for range 3 {
		numbers, values := diagramtest.Numbers(doc), []float64{0, 1e-3, 0.1, 1, 10, 1e3, 1e5}
		if changed, err := numbers[rng.IntN(len(numbers))].Set(doc, values[rng.IntN(len(values))]); err == nil {
			doc = changed
		}
	}
	return sheetCase(doc, solveOne)
}

// solveOne solves one surge case on each plan for a second at most: a run that
// is cut must end at once.
func solveOne(doc *diagram.Document) error {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	for _, plan := range doc.Plans() {
		result, cases, err := new(assess.Engine).Cases(ctx, doc, plan.ID, analysis.SurgesOf(doc)[0])
		switch {
		case ctx.Err() != nil:
			return nil
		case err != nil && !strings.Contains(err.Error(), ": "):
			return fmt.Errorf("an error that names nothing: %w", err)
		case err != nil:
			continue
		}
		if found := diagramtest.Absurd(result); found != "" {
			return infinity(found)
		}
		for _, c := range cases[:min(1, len(cases))] {
			met := c.Alone()
			if err := deckOf(ctx, doc, plan, met[len(met)-1]); err != nil && ctx.Err() == nil {
				return err
			}
		}
	}
	return nil
}

func deckOf(ctx context.Context, doc *diagram.Document, plan diagram.Plan, c assess.Case) error {
	var deck strings.Builder
	if err := writeDeck(ctx, &deck, sheet{doc: doc, plan: plan}, c); err != nil {
		return err
	}
	return infinityOf(diagramtest.AbsurdText(deck.String()))
}

// drawing draws a sheet.
func drawing(rng *rand.Rand) soakCase {
	return sheetCase(anySheet(rng), func(doc *diagram.Document) error {
		result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
		if err != nil {
			return err
		}
		d := report.Drawing{Document: doc, Result: result, Palette: report.Light(), DotsPerInch: 20}
		var out strings.Builder
		if err := d.Write(&out, report.SVG); err != nil {
			return err
		}
		return cmp.Or(infinityOf(diagramtest.AbsurdText(out.String())), d.Write(io.Discard, report.PDF))
	})
}

// handedOver writes all that is handed over of each plan, or is refused with what to do.
func handedOver(rng *rand.Rand) soakCase {
	return sheetCase(anySheet(rng), func(doc *diagram.Document) error {
		return judgeWith(doc, func(doc *diagram.Document, _ diagram.Plan, result *analysis.Result) error {
			w := &report.Work{Document: doc, Result: result}
			for _, d := range report.Deliverables() {
				if err := w.Solve(context.Background(), &assess.Engine{}, d.Takes, nil); err != nil {
					return err
				}
				for _, format := range d.Formats {
					if err := d.Write(io.Discard, w, format); err != nil && !strings.Contains(err.Error(), "choose another plan") {
						return err
					}
				}
			}
			return nil
		})
	})
}

// surveyTable reads a survey table that was damaged and takes its changes.
func surveyTable(rng *rand.Rand) soakCase {
	doc := anySheet(rng)
	topology := analysis.Trace(doc)
	var table bytes.Buffer
	if err := survey.WriteCSV(&table, survey.Sheets(doc, diagram.FirstPlan, topology, diagramtest.Must(fault.Solve(context.Background(), doc, topology)), nil, unit.IEC)); err != nil {
		return soakCase{work: func() error { return err }}
	}
	text := mutated(rng, table.Bytes())
	return soakCase{text, ".csv", func() error {
		review, err := survey.ReadCSV(bytes.NewReader(text), doc, diagram.FirstPlan, topology, unit.IEC)
		if err != nil {
			return nil // it is no survey table any more
		}
		if _, err := doc.Edit(review.Apply); err != nil {
			return fmt.Errorf("the sheet does not take what the review offers: %w", err)
		}
		return judgeNumbers(doc)
	}}
}
