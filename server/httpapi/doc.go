// Package httpapi is Haulm over HTTP: the routes of a garden, its members and
// media, the event stream, and the phone's app as static files.
//
// Start in routes.go: every route stands in one table with who may call it.
// app.go puts the middlewares around it; problems.go is the one place that
// turns an error into a status; the other files are each named for what their
// handlers are about. openapi.go describes the same routes for programs, and a
// test holds the two together.
//
// Fiber reuses a request's bytes after its handler returns. What outlives a
// handler is therefore copied where it is read (request.go), and bodies are
// read through one counting reader (body.go), because with streamed bodies
// neither Fiber's limit nor its check for cut-off bodies applies.
package httpapi
