// Package browser drives a Chromium over the pipe of its debugging protocol, for tests and
// for whoever looks at many pages: open, look, measure, print, tap, type, kill.
//
// A browser is started with --remote-debugging-pipe: messages in JSON go in at its file
// descriptor 3 and come out at 4, each ended by a zero byte. Every call ends with the
// context of Start, or after callLimit. An error of a call is the browser's answer, that it
// has gone or does not answer, or that the page has no such element.
package browser
