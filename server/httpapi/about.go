package httpapi

import (
	"net/http"

	"github.com/getkin/kin-openapi/openapi3"

	"haulm/almanac/assess"
	"haulm/server/unsent"
	"haulm/sync/journal"
)

// What openapi.json says of each route, in the order of the table in routes.go.

const (
	anyBytes  = "*/*"
	pieceType = "application/offset+octet-stream"
	jpegType  = "image/jpeg"
	zipType   = "application/zip"
	eventType = "text/event-stream"
	plainType = "text/plain"
)

func aboutHealthz() operation {
	return operation{summary: "The process answers.", gives: ok("alive", healthBody{})}
}

func aboutReadyz() operation {
	return operation{summary: "The journal takes changes.", gives: ok("ready", healthBody{})}
}

func aboutMetrics() operation {
	return operation{summary: "Prometheus metrics, for this machine or with the metrics token.",
		gives: []answer{{status: http.StatusOK, about: "metrics in Prometheus' text form", bytes: plainType}}}
}

func aboutDescription() operation {
	return operation{summary: "This description.", gives: ok("an OpenAPI 3.0 document", openapi3.NewObjectSchema())}
}

func aboutJoin() operation {
	return operation{summary: "Use a join code up and seat this device in its garden.", takes: joinBody{},
		gives: ok("the seat; the token is left out for browsers, which get it as a cookie", joinedBody{})}
}

func aboutDemo() operation {
	return operation{summary: "Open the demo garden, from the machine that runs it.", gives: ok("the seat, as for joining", joinedBody{})}
}

func aboutLogout() operation {
	return operation{summary: "Give up this device's token and all its seats.", gives: noContent("given up")}
}

func aboutMe() operation {
	return operation{summary: "This device and the gardens it has a seat in.", gives: ok("who is asking", meBody{})}
}

func aboutInvite() operation {
	return operation{summary: "Make a join code that works once, within a day.", takes: inviteBody{},
		gives: []answer{{status: http.StatusCreated, about: "the code and the link that carries it", body: invitedBody{}}}}
}

func aboutMembers() operation {
	return operation{summary: "The garden's members.", gives: ok("members in the order in which they joined", membersBody{})}
}

func aboutRemoveMember() operation {
	return operation{summary: "Take a member and all their devices out of the garden.", gives: noContent("removed")}
}

func aboutDevices() operation {
	return operation{summary: "The devices with a seat in the garden.", gives: ok("devices in the order in which they joined", devicesBody{})}
}

func aboutRename() operation {
	return operation{summary: "Give the device that asks another name.", takes: renameBody{}, gives: noContent("renamed")}
}

func aboutRevoke() operation {
	return operation{summary: "Shut a device out of the garden and end its event stream.", gives: noContent("shut out")}
}

func aboutSync() operation {
	return operation{summary: "Push changes and pull records.", takes: syncSchema(), gives: []answer{
		{status: http.StatusOK, about: "what became of the changes, and what is new after the cursor", body: syncedSchema()},
		{status: http.StatusConflict, about: "the cursor is of another epoch: start the feed again", body: epochBody{}},
	}}
}

func aboutLive() operation {
	return operation{summary: "Server-sent events: the garden's cursor at once and whenever it moves.",
		gives: []answer{{status: http.StatusOK, about: "events named cursor, whose data is a cursor", bytes: eventType}}}
}

func aboutSums() operation {
	return operation{summary: "Sums of the garden's live records, by bucket.", gives: ok("256 sums of 32 hexadecimal digits", journal.Sums{})}
}

func aboutBucket() operation {
	return operation{summary: "All records of one bucket, tombstones included.", gives: ok("records as in the feed", bucketSchema())}
}

func aboutAssessment() operation {
	day := openapi3.NewStringSchema().WithFormat("date")
	return operation{summary: "What the reckoning says of the garden on a day.",
		query: []parameter{{name: "on", about: "the day; without it, today in the garden", schema: day}},
		gives: ok("season, findings and tasks", assess.Assessment{})}
}

func aboutImport() operation {
	check := openapi3.NewStringSchema().WithEnum("true", "false")
	return operation{summary: "Take in a file in which a phone saved what it could not send: a zip of the format haulm-unsent. Taking it twice makes nothing twice.",
		bytes: zipType, query: []parameter{{name: "check", about: "true: look only, and tell what would be taken", schema: check}},
		gives: ok("what became of its entries; those left aside are named", unsent.Summary{})}
}

func aboutMediaOffset() operation {
	return operation{summary: "How much of a photo or memo is here, in Upload-Offset; Upload-Complete ?1 once it is proven whole.",
		gives: []answer{{status: http.StatusOK, about: "told in headers"}}}
}

func aboutMediaAppend() operation {
	return operation{summary: "Add a piece at its offset; the last one has the whole checked against its name.", bytes: pieceType,
		headers: []parameter{byteCount(headerOffset, "where the piece begins"), byteCount(headerLength, "bytes of the whole file")},
		gives:   noContent("the piece is on disk; Upload-Offset and Upload-Complete tell how far it is")}
}

func aboutMediaSend() operation {
	width := openapi3.NewStringSchema().WithEnum("320", "1600")
	return operation{summary: "The original, with ranges, or a small picture.",
		query: []parameter{{name: "w", about: "the small picture's longer side in pixels", schema: width}},
		gives: []answer{
			{status: http.StatusOK, about: "the bytes", bytes: anyBytes},
			{status: http.StatusPartialContent, about: "the range asked for", bytes: anyBytes},
			{status: http.StatusNotModified, about: "the copy held is the file"},
		}}
}

func aboutMediaPreview() operation {
	return operation{summary: "Send the small picture that the phone made of an original.", bytes: jpegType,
		headers: []parameter{byteCount(headerOriginalLength, "bytes of the original")}, gives: noContent("kept")}
}

func ok(about string, body any) []answer {
	return []answer{{status: http.StatusOK, about: about, body: body}}
}

func noContent(about string) []answer {
	return []answer{{status: http.StatusNoContent, about: about}}
}

func byteCount(name, about string) parameter {
	return parameter{name: name, about: about, schema: openapi3.NewInt64Schema().WithMin(0), required: true}
}

func text() *openapi3.Schema  { return openapi3.NewStringSchema() }
func count() *openapi3.Schema { return openapi3.NewInt64Schema().WithMin(0) }

// bag is an object whose members all have one schema; nil allows any JSON.
func bag(of *openapi3.Schema) *openapi3.Schema {
	if of == nil {
		of = openapi3.NewSchema().WithNullable()
	}
	return openapi3.NewObjectSchema().WithAdditionalProperties(of)
}

func object(required []string, properties map[string]*openapi3.Schema) *openapi3.Schema {
	return openapi3.NewObjectSchema().WithProperties(properties).WithRequired(required)
}

func listOf(schema *openapi3.Schema) *openapi3.Schema {
	return openapi3.NewArraySchema().WithItems(schema)
}

// syncSchema, recordSchema and syncedSchema are written out because their Go
// types write their own JSON.
func syncSchema() *openapi3.Schema {
	one := object([]string{"id", "record", "at"}, map[string]*openapi3.Schema{
		"id": text(), "record": text(), "base": count(), "at": text(), "set": bag(nil), "gone": openapi3.NewBoolSchema()})
	return object(nil, map[string]*openapi3.Schema{"cursor": text(), "limit": count(), "changes": listOf(one)})
}

func recordSchema() *openapi3.Schema {
	loser := object([]string{"value", "at", "by", "seq"}, map[string]*openapi3.Schema{
		"value": openapi3.NewSchema().WithNullable(), "at": text(), "by": text(), "seq": count()})
	return object([]string{"record", "seq", "fields", "at"}, map[string]*openapi3.Schema{"record": text(), "seq": count(),
		"fields": bag(nil), "at": bag(text()), "also": bag(listOf(loser)), "gone": openapi3.NewBoolSchema(), "goneAt": text()})
}

func syncedSchema() *openapi3.Schema {
	applied := object([]string{"id", "seq", "at"}, map[string]*openapi3.Schema{"id": text(), "seq": count(), "at": text()})
	refused := object([]string{"id", "code", "why"}, map[string]*openapi3.Schema{"id": text(), "code": text(), "why": text()})
	return object([]string{"applied", "refused", "records", "cursor", "more", "now"}, map[string]*openapi3.Schema{
		"applied": listOf(applied), "refused": listOf(refused), "records": listOf(recordSchema()), "cursor": text(),
		"more": openapi3.NewBoolSchema(), "digest": text(), "now": openapi3.NewDateTimeSchema()})
}

func bucketSchema() *openapi3.Schema {
	return object([]string{"cursor", "records"}, map[string]*openapi3.Schema{"cursor": text(), "records": listOf(recordSchema())})
}
