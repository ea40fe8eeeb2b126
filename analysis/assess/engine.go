package assess

import (
	"context"
	"errors"
	"runtime"
	"sync"
	"sync/atomic"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/diagram"
)

// Engine analyses sheets on either basis. It keeps from one call to the next the
// calibrated protectors, since calibrating one costs more than solving a small
// building, and what was traced of a building, which a change of its protectors
// leaves as it is. The zero value is ready; it may be used by one goroutine at a time.
type Engine struct {
	// Everywhere has surges that are born inside solved at every place, however long that
	// takes; else a large building is bounded, and a finding says so.
	Everywhere bool

	// Coarse leaves out the voltages inside feeders, which then count from end to
	// end: for a state that is soon to be another one. All else is the same.
	Coarse bool

	models extract.Models
	traced traced
}

// modelLimit is how many calibrated protectors are kept.
const modelLimit = 4096

// Transient solves the surge cases for one plan, or all cases of the document
// where none is named. The hand rule is applied first: what each bus
// withstands, which modes are judged and what does not fit come from there.
// doc is a snapshot, or else nobody changes it until Transient returns.
//
// An error says that the context has ended, that the document has no such
// plan, or which bus or part could not be solved.
func (e *Engine) Transient(ctx context.Context, doc *diagram.Document, plan diagram.ID, surges ...diagram.Surge) (*analysis.Result, error) {
	result, _, err := e.Cases(ctx, doc, plan, surges...)
	return result, err
}

// each runs work for every number below n at the same time, and returns the
// first error in their order.
func each(ctx context.Context, n int, work func(context.Context, int) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	errs := make([]error, n)
	sideBySide(n, func(i int) {
		if errs[i] = work(ctx, i); errs[i] != nil {
			cancel()
		}
	})
	return firstCause(errs)
}

// sideBySide calls work for every number below n, as many at a time as there
// are processors.
func sideBySide(n int, work func(int)) {
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				work(i)
			}
		})
	}
	group.Wait()
}

// firstCause returns the first error that is not merely the end of the others'
// work.
func firstCause(errs []error) error {
	var out error
	for _, err := range errs {
		if err != nil && (out == nil || errors.Is(out, context.Canceled)) {
			out = err
		}
	}
	return out
}

// calibrate makes the protectors of the plan ready that are not yet.
func (e *Engine) calibrate(ctx context.Context, in extract.Input) error {
	if e.models == nil || len(e.models) > modelLimit {
		e.models = extract.Models{}
	}
	var missing []protector.Nameplate
	for _, plate := range extract.Nameplates(in) {
		if e.models[plate] == nil {
			missing = append(missing, plate)
		}
	}
	made := make([]*protector.Model, len(missing))
	err := each(ctx, len(missing), func(ctx context.Context, i int) error {
		var err error
		if made[i], err = protector.Calibrate(ctx, missing[i]); err != nil {
			return protectorProblem(in, missing[i], err)
		}
		return nil
	})
	if err != nil {
		return err
	}
	for i, plate := range missing {
		e.models[plate] = made[i]
	}
	return nil
}

// protectorProblem is why no model was found of the first protector of the plan that
// has the nameplate.
func protectorProblem(in extract.Input, plate protector.Nameplate, err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	out := diagram.Problem{Place: "a protector", What: err.Error()}
	var wrong protector.Error
	if errors.As(err, &wrong) {
		out.What, out.Remedy = wrong.What, wrong.Remedy
	}
	for p := range in.Document.ProtectorsOf(in.Plan) {
		if node := in.Topology.Nodes[diagram.End{Part: p.Bus}]; node != nil {
			if own, ok := extract.Nameplate(p, node.System); ok && own == plate {
				out.ID, out.Place = p.ID, in.Document.NameOf(p.ID)
				break
			}
		}
	}
	return out
}
