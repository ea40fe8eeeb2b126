// Package usual holds what stands for what a sheet does not say of its sources,
// transformers and motors, each figure with its source.
//
// Most figures are there twice. For a fault current they lie at the low end of what
// there is, so that no current is found too small; for a surge, which is reflected
// far more by the wiring than by what feeds it, they lie in the middle. Powers are in
// VA, currents in A rms symmetrical, impedances in per cent on the power, and X/R is
// reactance over resistance.
package usual
