/** The page's script: starts the app. */
import { start } from './shell.js';

start();
