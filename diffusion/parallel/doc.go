// Package parallel carries out the same work for many things on all cores. The results come in
// the order of the things, and are the same for any number of cores. Left out: progress and
// work that is worth keeping when it is interrupted.
package parallel
