package compare_test

import (
	"context"
	"errors"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

func purchase(doc *diagram.Document, plan diagram.ID, only ...diagram.ID) compare.Purchase {
	return compare.Purchase{Document: doc, Plan: plan, Basis: analysis.HandRule, Only: only}
}

func buys(t *testing.T, p compare.Purchase) []compare.Bought {
	t.Helper()
	out, err := compare.Buys(context.Background(), &assess.Engine{}, p)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// verdicts writes changes in letters: "West H>U".
func verdicts(doc *diagram.Document, changes []compare.Change) string {
	var out []string
	for _, c := range changes {
		out = append(out, doc.NameOf(c.Part)+" "+c.Before.Verdict.Letter()+">"+c.After.Verdict.Letter())
	}
	return strings.Join(out, ", ")
}

// Known by hand: each of two panels side by side is held by its own protector, the load
// below the second one by that; and 6 in of leads in place of 26 take 500 V off, which
// brings 1 300 V down to 800 V, two thirds of what East stands.
func TestWhatTwoProtectorsBuy(t *testing.T) {
	doc := twoPanels(t)
	got := buys(t, purchase(doc, "plan-3"))
	if len(got) != 2 {
		t.Fatalf("got %d", len(got))
	}
	for i, want := range []struct {
		protector      diagram.ID
		without, short string
		isShort        bool
		lost, gained   int
	}{
		{"p2", "West H>U", "", true, 1, 0},
		{"p3", "Pump H>U, East X>U", "East X>H", false, 2, 0},
	} {
		b := got[i]
		if b.Protector != want.protector || verdicts(doc, b.Without.Verdicts) != want.without || verdicts(doc, b.Short.Verdicts) != want.short ||
			b.IsShort != want.isShort || b.Without.Lost() != want.lost || b.Without.Gained() != want.gained {
			t.Errorf("%s: got %s without it and %s with short leads, short: %t", want.protector, verdicts(doc, b.Without.Verdicts), verdicts(doc, b.Short.Verdicts), b.IsShort)
		}
	}
	east := got[1].Short.Verdicts[0]
	if east.Before.Volts != 1300 || east.After.Volts != 800 || got[1].Short.Gained() != 1 {
		t.Errorf("East falls from %g V to %g V", east.Before.Volts, east.After.Volts)
	}
}

// A second protector beside one that holds the panel changes no verdict; what it lowers is
// told, and where it lowers nothing that is told, too.
func TestAProtectorThatNoVerdictShows(t *testing.T) {
	second := func(lead float64) func(*diagram.Tx) {
		return func(tx *diagram.Tx) { tx.SetProtector(protector("p4", "plan-3", "panel-1", lead)) }
	}
	for _, row := range []struct {
		name        string
		lead        float64
		want, leads string
	}{
		{"longer leads", 26 * inch, "Nothing gets worse without it by the hand rule, which does not see how protectors share a surge; the transient may", "change nothing that the verdicts show"},
		{"no leads at all", 0, "", "Its leads are as short as can be"},
	} {
		doc := twoPanels(t, second(row.lead))
		b := buys(t, purchase(doc, "plan-3", "p4"))[0]
		if len(b.Without.Verdicts) != 0 || b.Lead() != "No verdict depends on it" {
			t.Errorf("%s: got %s", row.name, verdicts(doc, b.Without.Verdicts))
		}
		if got := b.Reasons(doc, analysis.HandRule); row.want != "" && (len(got) != 1 || got[0] != row.want) {
			t.Errorf("%s: got %q", row.name, got)
		}
		if got := b.ShortLeads(doc); !strings.Contains(got, row.leads) {
			t.Errorf("%s: got %q, want %q in it", row.name, got, row.leads)
		}
	}
	doc := twoPanels(t, second(6*inch), func(tx *diagram.Tx) { // p2 now leaves 1 300 V, p4 800 V, and 1 700 V are borne
		tx.SetProtector(protector("p2", "plan-3", "panel-1", 26*inch))
	})
	got := strings.Join(buys(t, purchase(doc, "plan-3", "p4"))[0].Reasons(doc, analysis.HandRule), "\n")
	if want := "It lowers L-N at West from 900\u00a0V to 400\u00a0V, within the verdict; and 3 more"; !strings.Contains(got, want) {
		t.Errorf("got %q, want %q in it", got, want)
	}
}

// What a code asks for is told where the protector is what fulfils it.
func TestRequiredProtectorIsTold(t *testing.T) {
	doc := twoPanels(t, func(tx *diagram.Tx) {
		p, _ := tx.Part("panel-1")
		p.Use = diagram.EmergencyUse
		tx.SetPart(p)
	})
	got := strings.Join(buys(t, purchase(doc, "plan-3", "p2"))[0].Reasons(doc, analysis.HandRule), "\n")
	if !strings.Contains(got, "Without it: West, a board of an emergency system, has no protector") {
		t.Errorf("got %q", got)
	}
}

// The document that is asked about stays as it is, and a result at hand is not solved
// again: the progress tells one solution less.
func TestBuysSolvesNothingTwice(t *testing.T) {
	doc := twoPanels(t)
	parts, feeders, protectors := doc.Count()
	for _, row := range []struct {
		name   string
		before *analysis.Result
		want   int
	}{
		{"nothing at hand", nil, 4}, // as it is, without each, and one with short leads
		{"at hand", diagramtest.Must(assess.Run(context.Background(), doc, "plan-3")), 3},
	} {
		p := purchase(doc, "plan-3")
		p.Before = row.before
		var shares []float64
		p.Progress = func(share float64) { shares = append(shares, share) }
		buys(t, p)
		if len(shares) != row.want || shares[0] != 1/float64(row.want) || shares[row.want-1] != 1 {
			t.Errorf("%s: told %v", row.name, shares)
		}
	}
	if a, b, c := doc.Count(); a != parts || b != feeders || c != protectors {
		t.Error("the document has changed")
	}
}

// demo returns the demo sheet of a site.
func demo(t *testing.T, name string) *diagram.Document {
	t.Helper()
	for _, doc := range filetest.Demos(t) {
		if doc.Info().Site == name {
			return doc
		}
	}
	t.Fatalf("no demo %s", name)
	return nil
}

// By the transient the outcome is the same with any number of processors, and a protector
// that is taken away leaves more to the others.
func TestBuysByTheTransient(t *testing.T) {
	if testing.Short() {
		t.Skip("it solves a farm some ten times")
	}
	doc := demo(t, "Fell Farm")
	told := func(cores int) (out []string) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		p := purchase(doc, "plan-2", "protector-2", "protector-3")
		p.Basis = analysis.Transient
		for _, b := range buys(t, p) {
			out = append(out, verdicts(doc, b.Without.Verdicts), strings.Join(b.Reasons(doc, p.Basis), "\n"), b.ShortLeads(doc))
			for _, c := range b.Without.Volts {
				out = append(out, c.Says(doc))
			}
		}
		return out
	}
	one := told(1)
	if diff := cmp.Diff(one, told(4)); diff != "" {
		t.Errorf("(-one core +four):\n%s", diff)
	}
	if all := strings.Join(one, "\n"); !strings.Contains(all, "It takes part of the surge: without it") {
		t.Errorf("nobody takes more: %s", all)
	}
}

// The work ends soon after its context does, on a sheet of 10 000 parts, by either basis.
func TestStopsSoon(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes some seconds")
	}
	doc := diagramtest.Building(10_000)
	limit := func() time.Duration { // more on a busy machine: tracing takes 20 ms usually
		begun := time.Now()
		analysis.Trace(doc)
		return max(100*time.Millisecond, 5*time.Since(begun))
	}
	for name, run := range map[string]func(context.Context) error{
		"compare by the hand rule": solving(doc, analysis.HandRule), "compare by the transient": solving(doc, analysis.Transient),
		"buys by the hand rule": buying(doc, analysis.HandRule), "buys by the transient": buying(doc, analysis.Transient),
	} {
		for _, after := range []time.Duration{0, 50 * time.Millisecond, time.Second} {
			if best, most := cutAfter(t, run, after, limit); best > most {
				t.Errorf("%s, cut after %v: it went on for %v, want at most %v", name, after, best, most)
			}
		}
	}
}

func solving(doc *diagram.Document, basis analysis.Basis) func(context.Context) error {
	return func(ctx context.Context) error {
		_, err := compare.Solve(ctx, &assess.Engine{}, compare.Input{Document: doc, Plans: compare.All(doc), Basis: basis})
		return err
	}
}

func buying(doc *diagram.Document, basis analysis.Basis) func(context.Context) error {
	p := purchase(doc, diagram.FirstPlan)
	p.Basis = basis
	return func(ctx context.Context) error {
		_, err := compare.Buys(ctx, &assess.Engine{}, p)
		return err
	}
}

// cutAfter returns the shortest time of some tries that a run goes on after it was cut,
// 0 where it ends before on its own, and how long it may, as the machine is then.
func cutAfter(t *testing.T, run func(context.Context) error, after time.Duration, limit func() time.Duration) (best, most time.Duration) {
	t.Helper()
	best = time.Hour
	for range 8 {
		ctx, cancel := context.WithCancel(context.Background())
		cut := make(chan time.Time, 1)
		timer := time.AfterFunc(after, func() { cut <- time.Now(); cancel() })
		err := run(ctx)
		if timer.Stop() {
			cancel()
			return 0, limit()
		}
		best = min(best, time.Since(<-cut))
		if err != nil && !errors.Is(err, context.Canceled) {
			t.Fatal(err)
		}
		if most = limit(); best <= most {
			break
		}
	}
	return best, most
}

// What the protectors of a locked plan buy can be asked, and the plan stays locked.
func TestBuysOfALockedPlan(t *testing.T) {
	doc := filetest.Demos(t)[0].Snapshot()
	plan := doc.Plans()[0]
	plan.Locked = true
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetPlan(plan) })
	bought, err := compare.Buys(context.Background(), &assess.Engine{}, compare.Purchase{Document: doc, Plan: plan.ID, Basis: analysis.HandRule})
	if err != nil || len(bought) == 0 {
		t.Errorf("got %d, %v", len(bought), err)
	}
	bare, err := compare.Bare(doc, plan.ID)
	if err != nil {
		t.Fatal(err)
	}
	for p := range bare.ProtectorsOf(plan.ID) {
		t.Errorf("%s is still there", p.ID)
	}
	if after, _ := doc.Plan(plan.ID); !after.Locked {
		t.Error("the plan of the sheet was unlocked")
	}
}
