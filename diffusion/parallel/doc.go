// Package parallel carries out the same work for many things on several cores. The results come in
// the order of the things, and are the same for any number of cores, and so is the error. Left out: progress and
// work that is worth keeping when it is interrupted.
package parallel
