// Package live serves one page to this machine and follows the file that the page is
// made of: it reads the file as it is saved, keeps what was made of it, and tells
// every page that is open when there is something else to show.
//
// It knows nothing of what is on the page. A Maker makes it from the file, and
// answers the questions that are asked of it; a page and an answer are made once,
// however many ask for them.
//
// Nothing is ever written. The server listens on the loopback address, answers to its
// own name only (a foreign name that leads here is a page of somebody else asking), to
// no request that another site caused, and to GET and HEAD alone.
package live
