# Haulm in a container: built from source, one static binary, data in /data.
FROM node:20-bookworm-slim AS phone-tools

FROM golang:1.26-bookworm AS build
COPY --from=phone-tools /usr/local /usr/local/node
ENV PATH=$PATH:/usr/local/node/bin
RUN npm install --global npm@11 >/dev/null
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
RUN make build && mkdir /empty-data

FROM scratch
COPY --from=build /src/haulm /haulm
COPY --from=build --chown=65532:65532 /empty-data /data
USER 65532:65532
ENV HAULM_DATA=/data HAULM_LISTEN=:8080
VOLUME /data
EXPOSE 8080
HEALTHCHECK --interval=30s --timeout=3s --start-period=10s CMD ["/haulm", "healthy"]
ENTRYPOINT ["/haulm"]
CMD ["serve"]
