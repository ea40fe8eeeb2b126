package compare_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// priced gives the protectors of the third plan prices and labour, and the sheet its rates. All
// of it is invented.
func priced(t *testing.T, costs diagram.Costs, alter ...func(*diagram.Tx)) *diagram.Document {
	t.Helper()
	return twoPanels(t, append([]func(*diagram.Tx){func(tx *diagram.Tx) {
		tx.SetInfo(diagram.Info{Costs: costs})
		for id, costs := range map[diagram.ID][2]float64{"p2": {300.125, 3}, "p3": {200, 2}} {
			p, _ := tx.Protector(id)
			p.Price, p.Hours = costs[0], costs[1]
			tx.SetProtector(p)
		}
	}}, alter...)...)
}

// lines are the figures of a cost in their order.
func lines(c compare.Cost) []float64 {
	return []float64{c.Protectors, c.Labour, c.Travel, c.Shutdowns, c.Overhead, c.Tax, c.Total}
}

// By hand: 300.13 + 200 = 500.13; 5 h at 80 are 400; two buses at 50 + 0.5 h at 80
// each are 180; 1 180.13 in all with 100 for travel; 10 % of it are 118.01, 20 % of 1 298.14
// are 259.63.
func TestCostByHand(t *testing.T) {
	costs := diagram.Costs{Currency: "EUR", Rate: 80, Travel: 100, Shutdown: 50, ShutdownHours: 0.5, Overhead: 10, Tax: 20}
	got := compare.CostOf(priced(t, costs), "plan-3")
	if diff := cmp.Diff([]float64{500.13, 400, 100, 180, 118.01, 259.63, 1557.77}, lines(got)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got.Hours != 6 || !got.Whole() {
		t.Errorf("got %g h, whole: %t", got.Hours, got.Whole())
	}
	var steps []string
	for _, s := range got.Working {
		steps = append(steps, strings.ReplaceAll(s.Label+": "+s.Text, "\u00a0", " "))
	}
	want := []string{
		"protectors: 2 protectors = 500.13 EUR",
		"labour: 5 h × 80 EUR = 400 EUR",
		"travel: once for all the work = 100 EUR",
		"shutdowns: 2 × (50 EUR + 0.5 h × 80 EUR); one for each board or load worked at = 180 EUR",
		"overhead: 10 % × 1 180.13 EUR = 118.01 EUR",
		"tax: 20 % × 1 298.14 EUR = 259.63 EUR",
		"total: 1 557.77 EUR",
	}
	if diff := cmp.Diff(want, steps); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestCostOfOtherRates(t *testing.T) {
	for _, row := range []struct {
		name  string
		costs diagram.Costs
		plan  diagram.ID
		want  []float64
	}{
		{"nothing stated", diagram.Costs{}, "plan-3", []float64{500.13, 0, 0, 0, 0, 0, 500.13}},
		{"a number of shutdowns", diagram.Costs{Shutdown: 50, Shutdowns: 5}, "plan-3", []float64{500.13, 0, 0, 250, 0, 0, 750.13}},
		{"tax alone", diagram.Costs{Tax: 7}, "plan-3", []float64{500.13, 0, 0, 0, 0, 35.01, 535.14}},
		{"the building as found", diagram.Costs{Travel: 100, Shutdown: 50, Shutdowns: 2}, "plan-1", []float64{0, 0, 0, 0, 0, 0, 0}},
	} {
		if diff := cmp.Diff(row.want, lines(compare.CostOf(priced(t, row.costs), row.plan))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", row.name, diff)
		}
	}
}

// What stands in the building already is not bought again, and where its leads or its breaker
// are others its labour counts alone. What a plan lacks of it is taken away.
func TestCostAgainstAsFound(t *testing.T) {
	stands := func(alter func(*diagram.Protector)) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			old, _ := tx.Protector("p2")
			old.ID, old.Plan, old.Name, old.Note, old.Price, old.Hours, old.Offset = "old", diagram.FirstPlan, "as found", "rusty", 1, 1, 9
			alter(&old)
			tx.SetProtector(old)
		}
	}
	for _, row := range []struct {
		name            string
		alter           func(*diagram.Protector)
		bought, altered []diagram.ID
		gone            int
		money           float64
		hours           float64
	}{
		{"the same", func(*diagram.Protector) {}, []diagram.ID{"p3"}, nil, 0, 200, 2},
		{"longer leads", func(p *diagram.Protector) { p.Leads.Phase.Length = 1 }, []diagram.ID{"p3"}, []diagram.ID{"p2"}, 0, 200, 5},
		{"another breaker", func(p *diagram.Protector) { p.Breaker.Rated = 20 }, []diagram.ID{"p3"}, []diagram.ID{"p2"}, 0, 200, 5},
		{"another enclosure", func(p *diagram.Protector) { p.External = true }, []diagram.ID{"p3"}, []diagram.ID{"p2"}, 0, 200, 5},
		{"known since when", func(p *diagram.Protector) { p.Installed.Date = "2020-01-31" }, []diagram.ID{"p3"}, nil, 0, 200, 2},
		{"another device", func(p *diagram.Protector) { p.In = 10e3 }, []diagram.ID{"p2", "p3"}, nil, 1, 500.13, 5},
		{"another bus", func(p *diagram.Protector) { p.Bus = "load-1" }, []diagram.ID{"p2", "p3"}, nil, 1, 500.13, 5},
	} {
		got := compare.CostOf(priced(t, diagram.Costs{}, stands(row.alter)), "plan-3")
		if !slices.Equal(got.Bought, row.bought) || !slices.Equal(got.Altered, row.altered) || len(got.Gone) != row.gone || got.Protectors != row.money || got.Hours != row.hours {
			t.Errorf("%s: got %+v", row.name, got)
		}
	}
}

// Two alike on one bus, of which one stands there: the other one is bought.
func TestOneOfTwoAlikeIsBought(t *testing.T) {
	twice := func(tx *diagram.Tx) {
		for id, plan := range map[diagram.ID]diagram.ID{"p4": "plan-3", "old": diagram.FirstPlan} {
			p, _ := tx.Protector("p2")
			p.ID, p.Plan = id, plan
			tx.SetProtector(p)
		}
	}
	got := compare.CostOf(priced(t, diagram.Costs{}, twice), "plan-3")
	if !slices.Equal(got.Bought, []diagram.ID{"p3", "p4"}) || len(got.Gone) != 0 {
		t.Errorf("got %+v", got)
	}
}

// The only plan of a sheet is all bought: nothing says what stood there.
func TestCostOfTheOnlyPlan(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		p := protector("p1", diagram.FirstPlan, "panel-1", 0.2)
		p.Price = 99
		tx.SetProtector(p)
	})
	if got := compare.CostOf(doc, diagram.FirstPlan); got.Total != 99 {
		t.Errorf("got %+v", got)
	}
}

func TestWhatIsMissingIsSaid(t *testing.T) {
	doc := priced(t, diagram.Costs{}, func(tx *diagram.Tx) {
		p, _ := tx.Protector("p3")
		p.Price, p.Hours = 0, 0
		tx.SetProtector(p)
		p.ID, p.Plan = "old", diagram.FirstPlan
		p.In = 1
		tx.SetProtector(p)
	})
	got := compare.CostOf(doc, "plan-3")
	want := []string{"1 protector without a price: P3", "1 protector without labour: P3", "the sheet does not say what an hour of labour costs", "1 protector is taken away, which is not priced"}
	if diff := cmp.Diff(want, got.Missing(doc)); diff != "" || got.Whole() {
		t.Errorf("whole: %t, (-want +got):\n%s", got.Whole(), diff)
	}
}

// A currency is text of a file: nothing of it acts on a terminal.
func TestCurrencyIsText(t *testing.T) {
	if got := compare.Sum(5, "\x1b[31m€"); strings.ContainsRune(got, '\x1b') || !strings.Contains(got, "€") {
		t.Errorf("got %q", got)
	}
}
