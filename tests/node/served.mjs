// The service in a process of its own, over a catalogue of the demo grades, with a key of each role.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import grpc from '@grpc/grpc-js';
import reflection from 'grpc-js-reflection-client';

export const here = path.dirname(fileURLToPath(import.meta.url));
export const program = process.env.CABLECATALOG_DLL ?? path.join(here, '../../client/bin/Debug/net10.0/cablecatalog.dll');

export async function serve(...options) {
  const folder = mkdtempSync(path.join(tmpdir(), 'cablecatalog-node-'));
  const catalog = ['--catalog', path.join(folder, 'catalog.db')];
  const key = (name, role) => execFileSync(
    'dotnet', [program, 'keys', 'create', name, '--role', role, ...catalog, '--create-catalog', 'demo'],
    { stdio: ['ignore', 'pipe', 'ignore'] }).toString().trim();
  const keys = { boss: key('boss', 'administrator'), till: key('till', 'price-editor') };
  const server = spawn('dotnet', [program, 'serve', '--port', '0', ...catalog, ...options], { stdio: ['ignore', 'pipe', 'inherit'] });
  const said = [];
  await new Promise((resolve, reject) => {
    createInterface(server.stdout).on('line', (line) => {
      said.push(line);
      if (said.length === (options.includes('--json-port') ? 2 : 1)) resolve();
    });
    server.on('exit', (code) => reject(new Error(`serve ended with ${code}`)));
  });
  return {
    address: /http:\/\/(127\.0\.0\.1:\d+)/.exec(said[0])[1],
    jsonAddress: /^JSON at (http:\/\/127\.0\.0\.1:\d+),/.exec(said[1])?.[1],
    keys,
    stop() {
      server.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

// Clients are made from what reflection tells, and from nothing else.
export function clients(address, key) {
  const asked = new reflection.GrpcReflection(address, grpc.credentials.createInsecure());
  const metadata = new grpc.Metadata();
  if (key) metadata.set('authorization', `Bearer ${key}`);
  return async (service) => {
    const descriptor = await asked.getDescriptorBySymbol(service);
    const packages = descriptor.getPackageObject({ longs: Number, enums: String, defaults: true });
    const client = service.split('.').reduce((inner, name) => inner[name], packages);
    const made = new client(address, grpc.credentials.createInsecure());
    const call = (method, request) => new Promise((resolve, reject) => {
      made[method](request, metadata, (error, answer) => (error ? reject(error) : resolve(answer)));
    });
    call.stream = (method, request) => made[method](request, metadata);
    call.twoWay = (method) => made[method](metadata);
    return call;
  };
}
