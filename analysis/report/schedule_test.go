package report

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// workbook is what openpyxl, a reader of others, finds in a workbook: by sheet its rows.
func workbook(t *testing.T, content []byte) map[string][][]any {
	t.Helper()
	const program = `import json, openpyxl, sys
book = openpyxl.load_workbook(sys.argv[1])
json.dump({s.title: [[c.value for c in row] for row in s.iter_rows()] for s in book}, sys.stdout)`
	at := slices.IndexFunc(pythons, func(p string) bool { return exec.Command(p, "-c", "import openpyxl").Run() == nil })
	if at < 0 {
		t.Skip("openpyxl is not on this machine; “go run ./cmd/dev test” installs it where Debian's packages are")
	}
	out := map[string][][]any{}
	if err := json.Unmarshal([]byte(readBy(t, content, XLSX, pythons[at], "-c", program, "FILE")), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// below returns the rows of a sheet below its heads, by the first cell, each by head.
func below(t *testing.T, rows [][]any, first string) []map[string]any {
	t.Helper()
	head := slices.IndexFunc(rows, func(r []any) bool { return r[0] == first })
	if head < 0 {
		t.Fatalf("no column is called %q", first)
	}
	var out []map[string]any
	for _, r := range rows[head+1:] {
		if r[0] == nil {
			break
		}
		row := map[string]any{}
		for i, name := range rows[head] {
			if name != nil {
				row[name.(string)] = r[i]
			}
		}
		out = append(out, row)
	}
	return out
}

// What a reader of others finds in the workbook of each demo is what the sheet and the
// analysis say of each protector, in both conventions.
func TestScheduleIsThatOfTheAnalysis(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			w := workOf(t, doc, c)
			rows := below(t, workbook(t, written(t, "schedule", w, XLSX))["Schedule"], "Tag")
			n := 0
			for p := range doc.ProtectorsOf(w.Result.Plan) {
				n++
				at := slices.IndexFunc(rows, func(r map[string]any) bool {
					return r["Tag"] == doc.NameOf(p.ID) && r["Board or load"] == doc.NameOf(p.Bus)
				})
				if at < 0 {
					t.Errorf("%s: %s is missing", doc.Info().Title, doc.NameOf(p.ID))
					continue
				}
				isProtector(t, w, p, rows[at])
			}
			if n != len(rows) || n == 0 {
				t.Errorf("%s: %d rows of %d protectors", doc.Info().Title, len(rows), n)
			}
		}
	}
}

// isProtector compares a row with the nameplate, the fault current and the leads of a
// protector, each computed here anew.
func isProtector(t *testing.T, w *Work, p diagram.Protector, row map[string]any) {
	t.Helper()
	inch, unitName, earth := 0.0254, "in", "Ground"
	if w.Convention == unit.IEC {
		inch, unitName, earth = 0.001, "mm", "Earth"
	}
	fault := 0.0
	for end, f := range w.Result.Faults {
		if end.Part == p.Bus {
			fault = max(fault, f.ThreePhase, f.LineLine, f.LineNeutral, f.LineEarth)
		}
	}
	want := map[string]float64{
		"In, kA": p.In / 1e3, "Imax, kA": p.Imax / 1e3, "Iimp, kA": p.Iimp / 1e3, "SCCR, kA": p.SCCR / 1e3,
		"Fault current here, kA": fault / 1e3, "Breaker, A": p.Breaker.Rated, "Poles": float64(p.Breaker.Poles),
		"Line lead, target " + unitName: p.Leads.Phase.Length / inch,
	}
	if p.Modes[diagram.LineEarth].Connected || p.Modes[diagram.NeutralEarth].Connected {
		want[earth+" lead, target "+unitName] = p.Leads.Earth.Length / inch
	}
	for name, v := range want {
		if strings.HasSuffix(name, " mm") { // nobody measures a lead closer than that
			v = math.Round(v)
		}
		got, _ := row[name].(float64)
		if math.Abs(got-v) > 0.006 { // written to three decimals, inches to two
			t.Errorf("%s, %s: got %v, want %g", p.ID, name, row[name], v)
		}
	}
	var modes, levels, mcovs []string
	for _, m := range diagram.Modes() {
		if r := p.Modes[m]; r.Connected {
			modes = append(modes, unit.ModeWord(m.String(), w.Convention))
			levels = append(levels, fmt.Sprintf("%g", r.Level))
			mcovs = append(mcovs, fmt.Sprintf("%g", r.MCOV))
		}
	}
	for name, v := range map[string]string{
		"System": p.System.String(), "Type or class": string(p.Type), "Rating": string(p.Rating),
		"Modes": strings.Join(modes, " / "), "VPR or Up, V": strings.Join(levels, " / "), "MCOV or Uc, V": strings.Join(mcovs, " / "),
	} {
		if row[name] != v {
			t.Errorf("%s, %s: got %v, want %q", p.ID, name, row[name], v)
		}
	}
}

// The quantities to buy are those of what the plan costs, and add up to the rows of the
// schedule; their prices are the sum of the protectors.
func TestQuantities(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		w := workOf(t, doc, unit.NorthAmerican)
		cost := compare.CostOf(doc, w.Result.Plan)
		buy, price := 0.0, 0.0
		for _, row := range below(t, workbook(t, written(t, "schedule", w, XLSX))["Quantities"], "To buy") {
			if strings.HasPrefix(row["What"].(string), "Surge protector") {
				buy += row["To buy"].(float64)
				sum, _ := row["Price in all, "+cost.Currency].(float64)
				price += sum
			}
		}
		if buy != float64(len(cost.Bought)) || buy == 0 || math.Abs(price-cost.Protectors) > 1e-6 {
			t.Errorf("%s: %g to buy for %g, want %d for %g", doc.Info().Title, buy, price, len(cost.Bought), cost.Protectors)
		}
	}
}

// A protector without a price is said to have none, and is not in the sum.
func TestQuantityWithoutAPrice(t *testing.T) {
	w := workOf(t, twins(t), unit.NorthAmerican)
	rows := quantitiesOf(w, w.scheduled())
	if len(rows) != 1 || rows[0].buy != 2 || rows[0].price != 100 || rows[0].remark() != "1 of them without a price" {
		t.Errorf("got %+v, %q", rows, rows[0].remark())
	}
}

// twins is a panel with two protectors of a kind, of which one has a price.
func twins(t *testing.T) *diagram.Document {
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		system := diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid}
		tx.SetPart(diagram.Part{ID: "s", Kind: diagram.Supply, System: system})
		tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Panel, Name: "=2+2"})
		tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "s"}, To: diagram.End{Part: "b"}})
		p := analysis.TypicalProtector(system)
		p.Plan, p.Bus, p.Breaker = diagram.FirstPlan, "b", diagram.BreakerData{}
		for id, price := range map[diagram.ID]float64{"p1": 0, "p2": 100} {
			p.ID, p.Price = id, price
			tx.SetProtector(p)
		}
	})
}

// A name that a spreadsheet would take for a formula is a text in both forms.
func TestScheduleHasNoFormula(t *testing.T) {
	w := workOf(t, twins(t), unit.NorthAmerican)
	lines, err := csv.NewReader(strings.NewReader(string(written(t, "schedule", w, CSV)))).ReadAll()
	if err != nil || len(lines) != 3 || lines[1][1] != "'=2+2" {
		t.Errorf("got %v, %v", lines, err)
	}
	if rows := below(t, workbook(t, written(t, "schedule", w, XLSX))["Schedule"], "Tag"); rows[0]["Board or load"] != "=2+2" {
		t.Errorf("got %v", rows[0])
	}
}

// Leads as long as the schedule allows leave every verdict of the demos as it is, by the
// hand rule, and an inch or more beyond what a verdict sets takes one away.
func TestLeadsUpToTheGreatestKeepEveryVerdict(t *testing.T) {
	room, bound := 0, 0
	for _, doc := range filetest.Demos(t) {
		w := workOf(t, doc, unit.NorthAmerican)
		for _, i := range w.scheduled() {
			longer := func(by float64) *Work {
				out := doc.Snapshot()
				p := i.Protector
				for _, l := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
					l.Length += by
				}
				diagramtest.Edit(t, out, func(tx *diagram.Tx) { tx.SetProtector(p) })
				return workOf(t, out, unit.NorthAmerican)
			}
			if i.room.By > 0 {
				room++
			}
			after := longer(i.room.By)
			for id, bus := range w.Result.Buses {
				if is := after.Result.Buses[id].Worst().Verdict; is.Rank() < bus.Worst().Verdict.Rank() {
					t.Errorf("%s, %s longer by %g m: %s is %s", doc.Info().Title, i.ID, i.room.By, doc.NameOf(id), is)
				}
			}
			if i.room.Part != i.Bus {
				continue
			}
			bound++
			if is := longer(i.room.By + lead.Inch).Result.Buses[i.Bus].Worst().Verdict; is == w.Result.Buses[i.Bus].Worst().Verdict {
				t.Errorf("%s, %s: its bus is still %s an inch beyond", doc.Info().Title, i.ID, is)
			}
		}
	}
	if room == 0 || bound == 0 {
		t.Errorf("%d protectors have room, and of %d their own bus sets it: the demos show nothing", room, bound)
	}
}
