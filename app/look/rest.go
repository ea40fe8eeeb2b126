package look

import (
	"time"

	"fyne.io/fyne/v2"
)

// restTime is how long the pointer rests on something before it is explained.
const restTime = 600 * time.Millisecond

// AfterRest calls f on the thread of the window once the pointer has rested. A test
// has a clock of its own.
var AfterRest = func(f func()) (stop func() bool) {
	return time.AfterFunc(restTime, func() { fyne.Do(f) }).Stop
}

// Rest tells when the pointer rests on a control, and when it is gone.
type Rest struct {
	Explain func(on bool) // nil where there is nothing to say
	stop    func() bool   // ends the wait; nil where there is none
}

// Begin waits whether the pointer that came rests.
func (r *Rest) Begin() {
	if r.Explain != nil {
		r.stop = AfterRest(func() { r.Explain(r.stop != nil) })
	}
}

// End takes the explanation away.
func (r *Rest) End() {
	if r.stop != nil {
		r.stop()
		r.stop = nil
		r.Explain(false)
	}
}
