// Package practice makes up readings for learners: an engine with instruments on
// it, errors that can be switched on, and the answer. The same plan gives the same
// readings. Everything in them is invented.
package practice
