// Package simd is what the solvers spend their time on, as loops over plain numbers: on amd64 with AVX2 four of them at a time, by the assembly beside; anywhere
// else one after the other, by the Go code that the assembly follows sum by sum. Products and sums stand in the same order in both and none are fused, so that the
// results agree to the bit, which the tests of this package hold.
//
// It knows numbers only. All slices of a call have the lengths that its function tells; where they do not, it panics before anything is written.
package simd
